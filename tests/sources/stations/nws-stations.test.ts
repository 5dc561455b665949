// Stations of the NWS API over real HTTP. Public reports of faults that must be survived are named beside their cases.

import { describe, expect, it } from 'vitest';
import { HOUR_MS } from '#core/units/time.ts';
import {
  failing,
  fakeStations,
  json,
  LIST,
  latest,
  list,
  listed,
  near,
  observed,
  POINT,
  START_MS,
  since,
  station,
} from './fake-stations.ts';

const SINCE_KNEAR = since('KNEA', '2026-03-02T16:20:00Z');
const byStation = (reading: { observations: readonly { observation: { station: string } }[] }) =>
  reading.observations.map(({ observation }) => observation.station);
const kinds = (reading: { faults: readonly { kind: string }[] }) => reading.faults.map(({ kind }) => kind);

describe('the nearest stations', () => {
  it('are found by our own distance, not by the order of the list (weather-gov/weather.gov#1726)', async () => {
    const fake = await fakeStations([station(near({ most: 1 }))], {
      [LIST]: json(list(listed('KFAR', 30), listed('KNEA', 4))),
      [latest('KNEA')]: json(observed('17:53', 18, 220)),
      [SINCE_KNEAR]: json(list()),
    });
    const reading = await fake.source.read();
    expect(fake.asked()).toEqual([POINT, LIST, latest('KNEA'), SINCE_KNEAR]);
    expect(reading.faults).toEqual([]);
    expect(reading.stations).toMatchObject([
      {
        site: 'own/mill-bend',
        station: {
          id: 'airport-knea',
          name: 'KNEA Field',
          distanceM: 4000,
          aboveSiteM: 40,
          windHeightM: 10,
          windAveragingS: 120,
        },
      },
    ]);
    expect(reading.observations).toMatchObject([
      {
        site: 'own/mill-bend',
        observation: {
          station: 'airport-knea',
          observedAtMs: Date.UTC(2026, 2, 2, 17, 53),
          receivedAtMs: START_MS,
          wind: { kind: 'blowing', fromDeg: 220, speedMps: 5 },
        },
      },
    ]);
  });

  it.each([
    ['too far away', listed('KZZZ', 41)],
    ['too high above the site', listed('KZZZ', 5, { elevation: { unitCode: 'wmoUnit:m', value: 400 } })],
    ['of somebody unknown', listed('KZZZ', 5, { provider: 'Backyard' })],
    ['without a place', { ...listed('KZZZ', 5), geometry: null }],
    ['with a name that is none', listed('K../Z', 5)],
  ])('one %s is not asked, and that none is near is told', async (_, feature) => {
    const fake = await fakeStations([station(near())], { [LIST]: json(list(feature)) });
    const reading = await fake.source.read();
    expect(reading).toMatchObject({ observations: [], stations: [] });
    expect(reading.faults).toMatchObject([{ kind: 'none-near', site: 'own/mill-bend', station: 'airport' }]);
  });

  it('a fire weather station measures at 20 ft over 10 minutes', async () => {
    const fake = await fakeStations([station(near())], {
      [LIST]: json(list(listed('ABCC1', 5, { provider: 'RAWS' }))),
      [latest('ABCC1')]: json(observed('17:53', 18, 220)),
      '/stations/ABCC1/observations?': json(list()),
    });
    const { stations, observations } = await fake.source.read();
    expect(stations[0]?.station).toMatchObject({ windHeightM: 6.096, windAveragingS: 600 });
    expect(observations[0]?.observation).toMatchObject({ windHeightM: 6.096, windAveragingS: 600 });
  });

  it('are listed once a day, and the list of before serves where it cannot be had', async () => {
    const fake = await fakeStations([station(near())], {
      [LIST]: json(list(listed('KNEA', 4))),
      [latest('KNEA')]: json(observed('17:53', 18, 220)),
      '/stations/KNEA/observations?': json(list()),
    });
    await fake.source.read();
    fake.asked();
    fake.clock.advance(23 * HOUR_MS);
    await fake.source.read();
    expect(fake.asked()).not.toContain(LIST);
    fake.clock.advance(2 * HOUR_MS);
    fake.routes[LIST] = failing(404, 'InvalidGridpoint');
    const reading = await fake.source.read();
    expect(fake.asked()).toContain(LIST);
    expect(byStation(reading)).toEqual(['airport-knea']);
    expect(kinds(reading)).toContain('not-located');
  });

  it('serve several sites with one question', async () => {
    const sites = ['own/a', 'own/b'].map((site) => station(near(), { site }));
    const fake = await fakeStations(sites, {
      [LIST]: json(list(listed('KNEA', 4))),
      [latest('KNEA')]: json(observed('17:53', 18, 220)),
      '/stations/KNEA/observations?': json(list()),
    });
    const reading = await fake.source.read();
    expect(fake.asked().filter((path) => path === latest('KNEA'))).toHaveLength(1);
    expect(reading.observations.map(({ site }) => site)).toEqual(['own/a', 'own/b']);
    const one = await fake.source.read(undefined, (site) => site === 'own/b');
    expect(one.observations.map(({ site }) => site)).toEqual(['own/b']);
  });
});

describe('a station by name', () => {
  const named = (more = {}) => station({ kind: 'nws', stationId: 'KNEA' }, more);
  const routes = () => ({
    '/stations/KNEA': json(listed('KNEA', 4)),
    [latest('KNEA')]: json(observed('17:53', 18, 220)),
    '/stations/KNEA/observations?': json(list()),
  });

  it('keeps the name that the operator gave it, and is located by the service', async () => {
    const fake = await fakeStations([named()], routes());
    const { stations, observations, faults } = await fake.source.read();
    expect(stations[0]?.station).toMatchObject({ id: 'airport', distanceM: 4000, aboveSiteM: 40 });
    expect(observations).toMatchObject([{ observation: { station: 'airport' } }]);
    expect(faults).toEqual([]);
  });

  it('that the service does not know is told, and asked all the same', async () => {
    const fake = await fakeStations([named()], { ...routes(), '/stations/KNEA': failing(404, 'NotFound') });
    const reading = await fake.source.read();
    expect(kinds(reading)).toEqual(['unknown-station']);
    expect(reading.stations[0]?.station.distanceM).toBe(30_000);
    expect(byStation(reading)).toEqual(['airport']);
  });

  it('a private one is asked where it is named, and nothing is assumed of its mast', async () => {
    const fake = await fakeStations([named()], {
      ...routes(),
      '/stations/KNEA': json(listed('KNEA', 4, { provider: 'Backyard' })),
    });
    const { observations } = await fake.source.read();
    expect(observations[0]?.observation).toMatchObject({ windHeightM: null, windAveragingS: null });
  });
});

describe('what cannot be had', () => {
  const two = () => [
    station({ kind: 'nws', stationId: 'KNEA' }),
    station({ kind: 'nws', stationId: 'KFAR' }, { id: 'second' }),
  ];

  it('one station that fails leaves the other', async () => {
    const fake = await fakeStations(two(), {
      '/stations/KNEA': json(listed('KNEA', 4)),
      '/stations/KFAR': json(listed('KFAR', 30)),
      [latest('KNEA')]: failing(500, 'UnexpectedProblem'),
      [latest('KFAR')]: json(observed('17:53', 18, 220)),
      '/stations/KFAR/observations?': json(list()),
    });
    const reading = await fake.source.read();
    expect(byStation(reading)).toEqual(['second']);
    expect(reading.faults).toMatchObject([{ kind: 'not-answered', station: 'airport', where: 'KNEA' }]);
  });

  it.each([
    ['nothing that can be read', json('<html>'), 'not-answered'],
    ['no list', json({ type: 'Other' }), 'not-answered'],
    // home-assistant/core#119114: 200 without features.
    ['an empty list', json(list()), 'silent'],
    ['404', failing(404, 'NotFound'), 'silent'],
  ])('%s in the place of an observation is a fault of that station', async (_, route, kind) => {
    const fake = await fakeStations([station({ kind: 'nws', stationId: 'KNEA' })], {
      '/stations/KNEA': json(listed('KNEA', 4)),
      [latest('KNEA')]: route,
      '/stations/KNEA/observations?': json(list()),
    });
    const reading = await fake.source.read();
    expect(reading.observations).toEqual([]);
    expect(kinds(reading)).toEqual([kind]);
  });

  it('a reading that is called off throws, and nothing else does', async () => {
    const fake = await fakeStations([station(near())], { [LIST]: failing(500, 'UnexpectedProblem') });
    await expect(fake.source.read(AbortSignal.abort(new Error('closing')))).rejects.toThrow('closing');
    await expect(fake.source.read()).resolves.toMatchObject({ observations: [] });
  });

  it('without a point answer nothing is near, and why is told', async () => {
    const fake = await fakeStations([station(near())], { [POINT]: failing(404, 'InvalidPoint') });
    const reading = await fake.source.read();
    expect(reading.faults).toMatchObject([{ kind: 'not-located' }]);
  });
});
