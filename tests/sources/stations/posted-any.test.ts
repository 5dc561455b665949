// Bodies of several readings, and any JSON.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { postedObservation } from '#sources/stations/posted-observation.ts';
import { MOST_READINGS, readingsIn } from '#sources/stations/posted-schema.ts';
import { station as sourceStation } from './fake-stations.ts';

const { station } = sourceStation({ kind: 'posted' }, { id: 'mast', calmBelowMps: 0.5 });
const directions = { reference: 'true', declinationDeg: null, mountDeg: null } as const;
const judge = (item: unknown) =>
  postedObservation(item, {
    stationNamed: () => ({ station, directions }),
    receivedAtMs: Date.UTC(2026, 2, 2, 20, 6),
  });

describe('several readings in one body', () => {
  it.each([
    [{ station: 'a' }, 1],
    [[{ station: 'a' }, 7], 2],
    [{ observations: [{ station: 'a' }, null, 'x'] }, 3],
    [Array.from({ length: MOST_READINGS }, () => 1), MOST_READINGS],
  ])('%# are found one by one', (body, count) => {
    expect(readingsIn(body)).toHaveLength(count);
  });

  it.each([
    [null],
    [7],
    ['text'],
    [[]],
    [{ observations: [] }],
    [{ observations: 7 }],
    [{ observations: [{}], more: 1 }],
    [Array.from({ length: MOST_READINGS + 1 }, () => 1)],
  ])('%# is no list of readings', (body) => {
    expect(readingsIn(body)).toBeNull();
  });
});

describe('any JSON', () => {
  it('never throws, and never blows without a speed and a direction in numbers', () => {
    const value = fc.oneof(
      fc.jsonValue({ maxDepth: 2 }),
      fc.constantFrom('10 mph', '0 kt', '5 m/s', '50 %', '10 °C', null, 'calm', 'variable', '', 'NaN mph'),
    );
    const item = fc.record(
      {
        station: fc.constant('mast'),
        time: fc.constantFrom('2026-03-02T14:05:00-06:00', '2026-03-02T14:05Z'),
        windSpeed: value,
        windDirection: fc.oneof(value, fc.integer({ min: -10, max: 370 })),
        windGust: value,
        relativeHumidity: value,
        reference: fc.constantFrom('true', 'magnetic', null, undefined, 7),
      },
      { requiredKeys: ['station', 'time'] },
    );
    fc.assert(
      fc.property(fc.oneof(fc.jsonValue(), item), (told) => {
        const { observation, faults } = judge(told);
        expect(observation !== null || faults.length > 0).toBe(true);
        if (observation?.wind.kind !== 'blowing') return;
        const { windSpeed, windDirection } = told as Record<string, unknown>;
        expect(typeof windDirection).toBe('number');
        expect(windSpeed ?? null).not.toBeNull();
        expect(observation.wind.fromDeg > 0 && observation.wind.fromDeg <= 360).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });
});
