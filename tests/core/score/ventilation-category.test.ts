import { describe, expect, it } from 'vitest';
import {
  type CategoryTable,
  categoryBoundM2ps,
  ventilationCategory,
} from '#core/score/ventilation-category.ts';
import { inUnit, parseQuantity } from '#core/units/quantity.ts';

/** NWS Blacksburg; 28,500 overlaps in print, so the side is stated (docs/sources.md B.3, J.1 rows 10 and 11). */
const BLACKSBURG: CategoryTable = {
  name: 'NWS Blacksburg',
  unit: 'kt-ft',
  bounds: [28_500, 38_000, 51_000, 95_000],
  onBound: 'lower',
};
/** North Carolina Forest Service 2015, mph-ft; a bound belongs to the upper category (B.3, J.1 row 12). */
const CAROLINA: CategoryTable = {
  name: 'NCFS 2015',
  unit: 'mph-ft',
  bounds: [33_500, 45_000, 60_000, 112_000],
  onBound: 'upper',
};
/** NWS fire weather text formatter, knot-ft (second pass 3a, rows W1 and W2). */
const ADJECTIVES: CategoryTable = {
  name: 'NWS adjectives',
  unit: 'kt-ft',
  bounds: [40_000, 60_000, 100_000, 150_000],
  onBound: 'upper',
};

function categoryOf(rate: number, table: CategoryTable): number | null {
  const parsed = parseQuantity(`${rate} ${table.unit}`, 'ventilation');
  if ('fault' in parsed) throw new Error(parsed.fault);
  return ventilationCategory(parsed.value, table);
}

describe('the category of a ventilation rate', () => {
  it.each([
    [28_500, 1],
    [28_501, 2],
    [38_000, 2],
    [38_001, 3],
    [51_000, 3],
    [95_000, 4],
    [95_001, 5],
  ])('%d kt-ft by the Blacksburg table is %d', (rate, category) =>
    expect(categoryOf(rate, BLACKSBURG)).toBe(category),
  );

  it.each([
    [33_499, 1],
    [33_500, 2],
    [44_999, 2],
    [45_000, 3],
    [60_000, 4],
    [112_000, 5],
  ])('%d mph-ft by the Carolina table is %d', (rate, category) =>
    expect(categoryOf(rate, CAROLINA)).toBe(category),
  );

  it.each([
    [39_999, 1],
    [40_000, 2],
    [59_999, 2],
    [60_000, 3],
    [99_999, 3],
    [100_000, 4],
    [149_999, 4],
    [150_000, 5],
  ])('%d kt-ft by the adjectives of the NWS is %d', (rate, category) =>
    expect(categoryOf(rate, ADJECTIVES)).toBe(category),
  );

  it('one rate is category 2 in one table and 1 in another (the pitfall of B.3)', () => {
    const rate = 28_800; // kt-ft, 33,142 mph-ft
    const parsed = parseQuantity(`${rate} kt-ft`, 'ventilation');
    const m2ps = 'fault' in parsed ? Number.NaN : parsed.value;
    expect([ventilationCategory(m2ps, BLACKSBURG), ventilationCategory(m2ps, CAROLINA)]).toEqual([2, 1]);
  });

  it('is none for a rate that is no number, and 1 for nothing moving at all', () => {
    expect(ventilationCategory(Number.NaN, BLACKSBURG)).toBeNull();
    expect(ventilationCategory(0, BLACKSBURG)).toBe(1);
  });
});

describe('the bounds of a table', () => {
  it('are in its own unit: 28,500 kt-ft are 4,469 m²/s (B.3)', () => {
    expect(Math.round(categoryBoundM2ps(BLACKSBURG, 0))).toBe(4469);
    expect(inUnit(categoryBoundM2ps(CAROLINA, 3), 'mph-ft')).toBeCloseTo(112_000, 6);
  });

  it('are a fault of the program where they are asked for and not there', () => {
    expect(() => categoryBoundM2ps(BLACKSBURG, 4)).toThrow(RangeError);
    expect(() => categoryBoundM2ps({ ...BLACKSBURG, unit: 'furlongs' }, 0)).toThrow(RangeError);
  });

  it('may be as small or as large as a number can be', () => {
    expect(categoryBoundM2ps({ ...BLACKSBURG, unit: 'm²/s', bounds: [1e-7] }, 0)).toBe(1e-7);
  });
});
