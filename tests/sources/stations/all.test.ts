import { expect, it } from 'vitest';
import { observationSources } from '#sources/stations/all.ts';
import { near, station } from './fake-stations.ts';
import { farm, mast } from './mqtt-harness.ts';

const context = {
  nowMs: () => 0,
  sleep: () => Promise.resolve(),
  random: () => 0.5,
  log: { info: () => undefined, warn: () => undefined },
  brokers: [farm('mqtt://127.0.0.1:1')],
  secret: () => null,
};

it('every kind of station has its source; posted ones need none, nor do those of a service that is not asked', () => {
  const stations = [
    station({ kind: 'posted' }),
    station(near()),
    station({ kind: 'nws', stationId: 'KZZZ' }, { id: 'named' }),
    mast(),
    station({ kind: 'nmea', host: '127.0.0.1', port: 1, transducers: [] }, { id: 'trailer' }),
  ];
  const nws = { http: {} as never, baseUrl: '', nowMs: () => 0, log: context.log };
  const made = observationSources(stations, { ...context, nws });
  expect(made.map(({ way, name }) => `${way} ${name}`)).toEqual([
    'polled nws',
    'heard mqtt farm',
    'heard nmea 127.0.0.1:1',
  ]);
  expect(observationSources(stations, { ...context, nws: null }).map(({ name }) => name)).not.toContain(
    'nws',
  );
  expect(observationSources([], { ...context, nws })).toEqual([]);
});
