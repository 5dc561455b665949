// The stations of the stand-in, read by the source that the program uses.

import { afterAll, describe, expect, it } from 'vitest';
import { stationsOf } from '#config/stations.ts';
import { angleBetweenDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { speedOf } from '#core/watch/observation.ts';
import { DEMO_CELLS } from '#demo/cells.ts';
import { DEMO_STATIONS } from '#demo/demo-stations.ts';
import { weatherAt } from '#demo/hour-weather.ts';
import type { WindTurn } from '#demo/observed-weather.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import { observationSources } from '#sources/stations/all.ts';
import type { PolledObservations, SourceStation } from '#sources/stations/observation-source.ts';
import { DEMO_CONFIG } from './demo-plans.ts';
import { useStandIn, ZONE } from './use-stand-in.ts';

const KT = 1852 / 3600;
const standIn = useStandIn();
const { at, get, json, later, nowMs } = standIn;
const opened: { close(): Promise<void> }[] = [];
afterAll(() => Promise.all(opened.map((one) => one.close())));

/** The stations of the demonstration's own configuration, asked at an address. */
function openSource(baseUrl: string): PolledObservations {
  const log = { info: () => undefined, warn: () => undefined };
  const clock = { nowMs, sleep: () => Promise.resolve(), random: () => 0.5, log };
  const nws = createNwsSource({ pace: null, baseUrl, contact: DEMO_CONFIG.contact, ...clock });
  opened.push(nws);
  const stations = DEMO_CONFIG.sites.flatMap((fields): SourceStation[] => {
    const place = { latDeg: fields.at[0], lonDeg: fields.at[1] };
    return stationsOf(fields.stations, place).map((one) => ({
      ...one,
      site: `own/${fields.id}`,
      place,
      siteElevationM: () => 70,
    }));
  });
  const [source] = observationSources(stations, {
    ...clock,
    nws: nws.context,
    brokers: [],
    secret: () => null,
  });
  if (source?.way !== 'polled') throw new Error('no source');
  return source;
}

describe('stations of the stand-in', () => {
  it('are found by the demonstration’s own configuration, each by its site, without a fault', async () => {
    at('2026-11-24', '14:03');
    const reading = await openSource(standIn.baseUrl()).read();
    expect(reading.faults).toEqual([]);
    const found = reading.stations.map(({ site, station }) => `${site} ${station.id} ${station.name}`);
    expect(found).toEqual([
      'own/north-block airfield-xxvn Tamber North Field',
      'own/creek-block airfield-xxvc Tamber Creek Field',
      'own/ridge-block airfield-xxvr Tamber Ridge Field',
    ]);
    for (const { station } of reading.stations) {
      expect(station.distanceM).toBeGreaterThan(2_000);
      expect(station.distanceM).toBeLessThan(6_000);
      expect(station).toMatchObject({ windHeightM: 10, windAveragingS: 120 });
    }
  });

  it('observe every five minutes what their cell’s weather is, to a knot or two and 20 degrees', async () => {
    at('2026-11-24', '14:03');
    const { observations } = await openSource(standIn.baseUrl()).read();
    for (const cell of DEMO_CELLS) {
      const own = observations.filter(({ site }) => site === `own/${cell.siteId}`).map((o) => o.observation);
      // Two hours back from 14:03: 12:05 … 14:00.
      expect(own.length).toBe(24);
      const weather = weatherAt(cell.story, ZONE, nowMs());
      for (const { observedAtMs, wind, quality, gustMps } of own) {
        expect(observedAtMs % (5 * MINUTE_MS)).toBe(0);
        expect(quality).toBe('passed');
        const hours = [0, HOUR_MS].map((ms) => weather(Math.floor(observedAtMs / HOUR_MS) * HOUR_MS + ms));
        const knots = hours.map(({ windKt }) => windKt);
        const speed = (speedOf(wind) ?? Number.NaN) / KT;
        expect(speed).toBeGreaterThan(Math.min(...knots) - 1.6);
        expect(speed).toBeLessThan(Math.max(...knots) + 1.6);
        if (gustMps !== null)
          expect(gustMps / KT).toBeLessThan(Math.max(...hours.map((h) => h.gustKt)) + 1.6);
        if (wind.kind !== 'blowing') continue;
        const [a, b] = hours.map(({ fromDeg }) => angleBetweenDeg(wind.fromDeg, fromDeg));
        expect((a ?? 0) + (b ?? 0)).toBeLessThanOrEqual(
          angleBetweenDeg(hours[0]?.fromDeg ?? 0, hours[1]?.fromDeg ?? 0) + 40,
        );
      }
    }
  });

  it('tell the same again at the same moment, and a newer one five minutes later', async () => {
    at('2026-11-24', '14:03');
    const path = '/stations/XXVN/observations/latest';
    const first = await json(path);
    expect(await json(path)).toEqual(first);
    expect(first['properties']?.['timestamp']).toBe('2026-11-24T22:00:00+00:00');
    later(3 * MINUTE_MS);
    expect((await json(path))['properties']?.['timestamp']).toBe('2026-11-24T22:00:00+00:00');
    later(MINUTE_MS);
    expect((await json(path))['properties']?.['timestamp']).toBe('2026-11-24T22:05:00+00:00');
  });

  it('list what is asked for, newest first, and refuse what is not known', async () => {
    at('2026-11-24', '14:03');
    const list = await json('/stations/XXVN/observations?start=2026-11-24T21:30:00Z&limit=3');
    const times = list['features']?.map((f) => f['properties']?.['timestamp']);
    expect(times).toEqual([
      '2026-11-24T22:00:00+00:00',
      '2026-11-24T21:55:00+00:00',
      '2026-11-24T21:50:00+00:00',
    ]);
    for (const path of [
      '/stations/XXVN/observations?start=yesterday',
      '/stations/XXVN/observations?limit=0',
      '/stations/XXVN/observations?fresh=1',
    ]) {
      expect((await get(path)).status, path).toBe(400);
    }
    for (const path of [
      '/stations/KZZZ',
      '/stations/KZZZ/observations/latest',
      '/gridpoints/XXV/1,1/stations',
    ]) {
      expect((await get(path)).status, path).toBe(404);
    }
    expect((await get('/stations/XXVN/observations/oldest')).status).toBe(404);
  });

  it('have names that no real station has', () => {
    expect(DEMO_STATIONS.map(({ id }) => id)).toEqual(['XXVN', 'XXVC', 'XXVR']);
  });
});

describe('a turn of the wind', () => {
  it('is observed at the site that it is for, from its moment on, and told in the report', async () => {
    at('2026-11-24', '13:03');
    let turn: WindTurn | null = null;
    const other = await startStandIn({ nowMs, turn: () => turn });
    opened.push(other);
    const source = openSource(other.baseUrl);
    await source.read();
    turn = { siteId: 'north-block', atMs: nowMs() + 4 * MINUTE_MS, toDeg: 310 };
    later(20 * MINUTE_MS);
    const { observations, faults } = await source.read();
    expect(faults).toEqual([]);
    const newest = (site: string) => observations.filter((o) => o.site === site).at(-1)?.observation;
    const north = newest('own/north-block');
    if (north?.wind.kind !== 'blowing') throw new Error('calm');
    expect(angleBetweenDeg(north.wind.fromDeg, 310)).toBeLessThanOrEqual(10);
    expect(north.windShiftAtMs).toBe(turn.atMs);
    expect(newest('own/ridge-block')?.windShiftAtMs).toBeNull();
  });
});
