// What cannot be believed in a layer: hours covered in part or twice, intervals without length, random intervals.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Element } from '#core/series/elements.ts';
import { layerToHours } from '#core/series/layer-to-hours.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { hours, type Row, START } from '../../builders/layer.ts';

describe('hours that intervals cover in part', () => {
  it('have no value: half an hour does not speak for the other half', () => {
    expect(hours('windSpeed', [[0, 1.5, 4]]).told).toEqual([
      4,
      'part-covered',
      'ended',
      'ended',
      'ended',
      'ended',
    ]);
  });

  it('have one where intervals together cover them with the same value', () => {
    expect(
      hours(
        'windSpeed',
        [
          [0, 0.5, 4],
          [0.5, 1, 4],
        ],
        1,
      ).told,
    ).toEqual([4]);
  });

  it('are not made whole by the same half hour told twice', () => {
    expect(
      hours(
        'windSpeed',
        [
          [0, 0.5, 4],
          [0, 0.5, 4],
        ],
        1,
      ).told,
    ).toEqual(['part-covered']);
    expect(
      hours(
        'windGust',
        [
          [0, 0.5, 4],
          [0, 0.5, 4],
        ],
        1,
      ).told,
    ).toEqual(['part-covered']);
    expect(
      hours(
        'quantitativePrecipitation',
        [
          [0, 0.5, 1],
          [0, 0.5, 1],
        ],
        1,
      ).told,
    ).not.toEqual([2]);
  });
});
describe('intervals without length or reversed', () => {
  it('change nothing on the hour', () => {
    expect(
      hours(
        'windGust',
        [
          [0, 3, 5],
          [1, 1, 50],
          [3, 1, 50],
        ],
        3,
      ).told,
    ).toEqual([5, 5, 5]);
  });

  it('never turn an hour into a value that is no number', () => {
    for (const element of ['windSpeed', 'windGust', 'quantitativePrecipitation'] as const) {
      const { column } = hours(
        element,
        [
          [0, 1, 2],
          [0.5, 0.5, 2],
        ],
        1,
      );
      if (column.missing[0] === 0) expect(column.values[0], element).not.toBeNaN();
    }
  });

  it('whose times are no numbers cover nothing', () => {
    const { told } = hours(
      'windSpeed',
      [
        [Number.NaN, 3, 5],
        [0, Number.NaN, 5],
      ],
      2,
    );
    expect(told.filter((v) => typeof v === 'number')).toEqual([]);
  });
});

describe('whatever the intervals', () => {
  const row = fc.tuple(
    fc.integer({ min: -4, max: 16 }),
    fc.integer({ min: 0, max: 10 }),
    fc.constantFrom(1, 2, 3, null, 900),
  );
  const rowsOf = fc.array(
    row.map(([half, length, value]): Row => [half / 2, (half + length) / 2, value]),
    { maxLength: 8 },
  );

  it('an hour has a value only where every half hour of it is covered, and by nothing null or absurd', () => {
    fc.assert(
      fc.property(fc.constantFrom<Element>('windSpeed', 'windGust'), rowsOf, (element, rows) => {
        const { column } = hours(element, rows);
        for (let h = 0; h < 6; h += 1) {
          const touching = rows.filter(([from, to]) => from < h + 1 && to > h && to > from);
          const whole = [h, h + 0.5].every((t) => touching.some(([from, to]) => from <= t && to >= t + 0.5));
          const sound = touching.every(([, , value]) => value !== null && value < 112);
          if (column.missing[h] === 0) expect({ whole, sound }).toEqual({ whole: true, sound: true });
          expect(Number.isNaN(column.values[h])).toBe(column.missing[h] !== 0);
        }
      }),
      { numRuns: 400, seed: 20260302 },
    );
  });

  it('a minute without cover is enough to lose the hour', () => {
    const layer = { fromMs: [START], toMs: [START + HOUR_MS - MINUTE_MS], values: [4] };
    expect(layerToHours('windSpeed', layer, START, 1).column.missing[0]).not.toBe(0);
  });
});
