// Stations of a site as the operator writes them, in the core's words and units; and that no message repeats a secret.

import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadConfig, parseConfig } from '#config/load.ts';
import { stationsOf } from '#config/stations.ts';
import { messageOf } from '#errors.ts';

const path = (name: string) => fileURLToPath(new URL(`../../fixtures/config/${name}`, import.meta.url));
const CONFIG = loadConfig(path('example.yaml'));
const PIT = { latDeg: 33.1, lonDeg: -84.2 };
const STATIONS = stationsOf(CONFIG.sites[0]?.stations ?? [], PIT);
const named = (id: string) => STATIONS.find(({ station }) => station.id === id);

const site = (stations: string, more = '') =>
  `contact: a@b.example\n${more}limitSets: { s: [{ element: windSpeed, atMost: { hold: 12 mph }, source: ours }] }\nsites:\n  - { id: a, name: A, at: [33.1, -84.2], limits: s, shift: { days: [mon], from: "07:00", to: "17:00" }, stations: ${stations} }\n`;
const stationsIn = (text: string) =>
  stationsOf(parseConfig(site(text), 'test').sites[0]?.stations ?? [], PIT);

describe('stations', () => {
  it('a person with a hand-held meter, by magnetic compass', () => {
    expect(named('meter')).toEqual({
      station: {
        id: 'meter',
        name: 'Hand-held meter',
        kind: 'person',
        distanceM: 0,
        aboveSiteM: 0,
        periodMin: 60,
        windHeightM: expect.closeTo(1.8288, 9),
        windAveragingS: 3,
        directionOffsetDeg: -5.5,
        calmBelowMps: 0.5,
      },
      directions: { reference: 'magnetic', declinationDeg: -5.5, mountDeg: null },
      source: { kind: 'posted' },
    });
  });

  it('an instrument two miles away and lower than the pit is near, not on site', () => {
    expect(named('logger')?.station).toMatchObject({
      kind: 'near',
      distanceM: 3219,
      aboveSiteM: expect.closeTo(-36.576, 9),
      periodMin: 10,
      windHeightM: null,
      windAveragingS: null,
      directionOffsetDeg: null,
      calmBelowMps: expect.closeTo(0.44704, 9),
    });
  });

  it('a mast that tells a broker, turned by its mounting', () => {
    expect(named('mast')).toMatchObject({
      station: { kind: 'onSite', periodMin: 5, windAveragingS: 120, directionOffsetDeg: 160 },
      directions: { reference: 'relative', mountDeg: 160 },
      source: { kind: 'mqtt', broker: 'farm', topic: 'pits/mill-bend/mast' },
    });
  });

  it('an instrument over TCP observes once for each averaging period', () => {
    expect(named('trailer')).toMatchObject({
      station: { kind: 'onSite', periodMin: 10, windAveragingS: 600, directionOffsetDeg: 350 },
      directions: { reference: 'relative', declinationDeg: null, mountDeg: 350 },
      source: { kind: 'nmea', host: '10.0.0.5', port: 10_110, transducers: ['AIR'] },
    });
    const [plain] = stationsIn('[{ id: t, kind: nmea, host: h, port: 1, declination: 13 }]');
    expect(plain).toMatchObject({
      station: { periodMin: 2, windAveragingS: null, directionOffsetDeg: null },
      directions: { reference: 'true', declinationDeg: 13, mountDeg: null },
    });
  });

  it('an airport by name, and the nearest ones', () => {
    // A tenth of a degree of longitude at 33.1° north is 9.315 km on a sphere of 6371 km.
    expect(named('airport')).toMatchObject({
      station: { kind: 'near', distanceM: 9315, aboveSiteM: null, periodMin: 60 },
      source: { kind: 'nws', stationId: 'KXYZ' },
    });
    expect(named('nearest')?.source).toEqual({
      kind: 'nws-near',
      withinM: expect.closeTo(32_186.88, 6),
      withinHeightM: expect.closeTo(152.4, 9),
      most: 3,
    });
    expect(named('any')?.source).toEqual({
      kind: 'nws-near',
      withinM: expect.closeTo(48_280.32, 6),
      withinHeightM: expect.closeTo(304.8, 9),
      most: 2,
    });
  });

  it('calm at an airport is below 3 kt, in knots and in rounded km/h', () => {
    const calmBelow = named('any')?.station.calmBelowMps ?? 0;
    // The API tells 3 kt as 5.4 km/h, and 2 kt as 3.6.
    expect(5.4 / 3.6).toBeGreaterThan(calmBelow);
    expect(3.6 / 3.6).toBeLessThan(calmBelow);
  });

  it.each([
    ['13', 13],
    ['-9.5', -9.5],
    ['13 E', 13],
    ['9.5 W', -9.5],
    ['"13° E"', 13],
  ])('declination %s is %d', (text, deg) => {
    const [meter] = stationsIn(
      `[{ id: m, kind: posted, by: person, reference: magnetic, declination: ${text} }]`,
    );
    expect(meter?.directions.declinationDeg).toBe(deg);
  });

  it('a site without any has none', () => {
    expect(CONFIG.sites[1]?.stations).toEqual([]);
    expect(parseConfig(site('[]'), 'test').mqtt).toEqual([]);
  });
});

describe('brokers', () => {
  it('name their secrets and hold none', () => {
    expect(CONFIG.mqtt).toEqual([
      {
        id: 'farm',
        url: 'mqtts://broker.stonefield-clearing.example:8883',
        usernameFrom: 'FARM_MQTT_USER',
        passwordFrom: 'FARM_MQTT_PASSWORD',
        certificatesFrom: 'FARM_MQTT_CA',
      },
    ]);
  });

  it('of this machine may take a password in the clear', () => {
    const text = 'mqtt:\n  - { id: farm, url: "mqtt://127.0.0.1:1883", passwordFrom: FARM_PASSWORD }\n';
    expect(parseConfig(site('[]', text), 'test').mqtt[0]?.passwordFrom).toBe('FARM_PASSWORD');
  });

  it.each(readdirSync(path('mistakes')).filter((name) => name.startsWith('broker-')))(
    '%s: the message repeats no secret',
    (name) => {
      let said = '';
      try {
        loadConfig(path(`mistakes/${name}`));
      } catch (fault) {
        said = `${messageOf(fault)} ${JSON.stringify(fault)} ${(fault as Error).stack ?? ''}`;
      }
      expect(said).toContain('fault');
      expect(said).not.toContain('orchard-7-smoke');
    },
  );
});
