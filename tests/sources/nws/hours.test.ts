// Run lengths there and back, and the quick way to hours against the general one.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { type Column, makeColumns } from '#core/series/hourly-series.ts';
import { layerToHours } from '#core/series/layer-to-hours.ts';
import { fillRegular } from '#sources/nws/regular-hours.ts';
import * as f from './grid-fixture.ts';

const HOUR_MS = 3_600_000;
const START_MS = Date.UTC(2026, 2, 2, 11);
const rfc3339 = (ms: number) => new Date(ms).toISOString().replace('.000Z', '+00:00');

/** Equal neighbours become one interval, as the service merges them; each length in one of the ways to write it. */
function compress(hours: readonly (number | null | undefined)[]): unknown[] {
  const intervals: unknown[] = [];
  for (let h = 0; h < hours.length; ) {
    const from = h;
    while (h < hours.length && hours[h] === hours[from]) h += 1;
    if (hours[from] === undefined) continue;
    const length = h - from;
    const days = Math.floor(length / 24);
    const duration = days > 0 ? `P${days}D${length % 24 ? `T${length % 24}H` : ''}` : `PT${length}H`;
    intervals.push({ validTime: `${rfc3339(START_MS + from * HOUR_MS)}/${duration}`, value: hours[from] });
  }
  return intervals;
}

const runs = fc.array(
  fc.tuple(
    fc.integer({ min: 1, max: 200 }),
    fc.oneof(
      { weight: 8, arbitrary: fc.integer({ min: 0, max: 100 }) },
      fc.constant(null),
      fc.constant(undefined),
    ),
  ),
  { minLength: 1, maxLength: 12 },
);

describe('hours that are merged into runs and read again', () => {
  it('are the hours that they were, for runs of up to 200 h', () => {
    fc.assert(
      fc.property(runs, (parts) => {
        const hours = parts
          .flatMap(([length, value]) => Array<typeof value>(length).fill(value))
          .slice(0, 384);
        const last = hours.findLastIndex((hour) => hour !== undefined);
        const reading = f.readGrid({
          validTimes: `${rfc3339(START_MS)}/PT${hours.length}H`,
          relativeHumidity: f.percent(...compress(hours)),
        });
        const expected = hours.map((hour, h) => {
          if (last < 0) return 'layer-empty';
          if (hour === null) return 'null-value';
          return hour ?? (h > last ? 'ended' : 'gap');
        });
        expect(f.hoursOf(reading, 'relativeHumidity')).toEqual(expected);
        expect(f.faultsOf(reading)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
});

describe('the quick way to hours', () => {
  const elements = Object.keys(ELEMENTS) as Element[];
  const plain = { factor: 1, offset: 0, wraps: false };
  const pieces = fc.array(
    fc.record({
      gap: fc.nat(4),
      length: fc.integer({ min: 1, max: 30 }),
      value: fc.option(fc.integer({ min: 1, max: 6 }), { nil: null, freq: 6 }),
    }),
    { maxLength: 20 },
  );

  function layerOf(list: readonly { gap: number; length: number; value: number | null }[], lead: number) {
    const layer = { fromMs: [] as number[], toMs: [] as number[], values: [] as number[] };
    let h = lead;
    for (const { gap, length, value } of list) {
      layer.fromMs.push(START_MS + (h + gap) * HOUR_MS);
      layer.toMs.push(START_MS + (h + gap + length) * HOUR_MS);
      layer.values.push(value ?? Number.NaN);
      h += gap + length;
    }
    const entries = layer.values.map((value, i) => ({
      validTime: `${rfc3339(layer.fromMs[i] ?? 0)}/${rfc3339(layer.toMs[i] ?? 0)}`,
      value: Number.isNaN(value) ? null : value,
    }));
    return { layer, entries };
  }

  const columnOf = (hours: number) => makeColumns(1, hours)[0] as Column;

  it('gives what the general one gives, for every element', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...elements),
        pieces,
        fc.integer({ min: -20, max: 20 }),
        fc.nat(60),
        (element, list, lead, hours) => {
          const { layer, entries } = layerOf(list, lead);
          const quick = columnOf(hours);
          expect(fillRegular(element, entries, plain, START_MS, quick)).toBe(true);
          const { column } = layerToHours(element, layer, START_MS, hours);
          expect([...quick.missing]).toEqual([...column.missing]);
          for (const [i, value] of column.values.entries()) {
            if (Number.isNaN(value)) expect(quick.values[i]).toBeNaN();
            else expect(quick.values[i]).toBeCloseTo(value, 9);
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  const from = (hour: number, rest: string, value: unknown = 3) => ({
    validTime: `${rfc3339(START_MS + hour * HOUR_MS)}/${rest}`,
    value,
  });

  it.each([
    ['is out of order', [from(1, 'PT1H'), from(0, 'PT1H')]],
    ['overlaps', [from(0, 'PT2H'), from(1, 'PT1H')]],
    ['comes twice', [from(0, 'PT1H'), from(0, 'PT1H')]],
    ['has no length', [from(0, 'PT0S')]],
    ['begins off the hour', [from(0.5, 'PT1H')]],
    ['ends off the hour', [from(0, 'PT30M')]],
    ['cannot be read', [from(0, 'P1M')]],
    ['is no record', [null]],
    ['has a text for a value', [from(0, 'PT1H', '3')]],
    ['has no value', [{ validTime: `${rfc3339(START_MS)}/PT1H` }]],
    ['is out of range', [from(0, 'PT1H', 7)]],
    ['is out of range beyond the series', [from(900, 'PT1H', 7)]],
  ])('leaves a layer to the general one of which one interval %s', (_, entries) => {
    expect(fillRegular('lightningActivityLevel', entries, plain, START_MS, columnOf(4))).toBe(false);
  });

  it('keeps the columns of one document apart', () => {
    const [a, b, c] = makeColumns(3, 4);
    b?.values.fill(1);
    b?.missing.fill(2);
    const all = [a, c].map((column) => [...(column?.values ?? []), ...(column?.missing ?? [])]);
    expect(all).toEqual([Array(8).fill(0), Array(8).fill(0)]);
  });
});
