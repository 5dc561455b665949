import { describe, expect, it } from 'vitest';
import type { Dimension } from '#core/units/quantity.ts';
import { parseQuantity } from '#core/units/quantity.ts';
import { conversionOf, convert } from '#sources/nws/units.ts';

const core = (value: number, unit: string, dimension: Dimension): number | null => {
  const conversion = conversionOf(unit, dimension);
  return conversion && convert(value, conversion);
};

describe('a unit', () => {
  // Factors: BIPM SI brochure 9th edition (km/h); international knot 1852 m/h, foot 0.3048 m and mile 1609.344 m, exact
  // (NIST SP 811, appendix B).
  it.each([
    [9.26, 'unit:m_s-1', 'speed', 9.26],
    [33.336, 'wmoUnit:km_h-1', 'speed', 9.26],
    [33.336, 'km/h', 'speed', 9.26],
    [18, '[kn_i]', 'speed', 9.26],
    [10, '[mi_i]/h', 'speed', 4.4704],
    [240, 'wmoUnit:degree_(angle)', 'angle', 240],
    [240, 'deg', 'angle', 240],
    [41, 'wmoUnit:percent', 'percent', 41],
    [41, '%', 'percent', 41],
    [-40, 'wmoUnit:degF', 'temperature', -40],
    [50, '[degF]', 'temperature', 10],
    [10, 'unit:degC', 'temperature', 10],
    [10, 'Cel', 'temperature', 10],
    [283.15, 'wmoUnit:K', 'temperature', 10],
    [914.4, 'wmoUnit:m', 'length', 914.4],
    [3000, '[ft_i]', 'length', 914.4],
    [2.54, 'wmoUnit:mm', 'precipitation', 2.54],
    [0.1, '[in_i]', 'precipitation', 2.54],
    [101_860, 'wmoUnit:Pa', 'pressure', 1018.6],
    [3, '1', 'plain', 3],
  ] as const)('%d %s as %s is %d in core units', (value, unit, dimension, expected) => {
    expect(core(value, unit, dimension)).toBe(expected);
  });

  it.each([
    ['wmoUnit:m', 'speed'],
    ['wmoUnit:km_h-1', 'length'],
    ['wmoUnit:m', 'precipitation'],
    ['wmoUnit:furlong', 'speed'],
    ['kts', 'speed'],
    ['', 'speed'],
    ['wmoUnit:', 'percent'],
    ['wmoUnit:KM_H-1', 'speed'],
    ['toString', 'speed'],
    ['__proto__', 'plain'],
    ['wmoUnit:percent', 'plain'],
    ['wmoUnit:Pa', 'percent'],
    ['wmoUnit:inHg', 'pressure'],
  ] as const)('"%s" is no unit of %s', (unit, dimension) => {
    expect(conversionOf(unit, dimension)).toBeNull();
  });

  it('leaves no float noise: the numbers are those of recorded grids', () => {
    expect(core(29.999999999999996, 'wmoUnit:degree_(angle)', 'angle')).toBe(30);
    expect(core(239.99999999999997, 'wmoUnit:degree_(angle)', 'angle')).toBe(240);
    expect(core(-2.2222222222222223, 'wmoUnit:degC', 'temperature')).toBe(-2.222222222);
  });

  it('makes north 0, however it is written', () => {
    expect(core(360, 'wmoUnit:degree_(angle)', 'angle')).toBe(0);
    expect(core(359.99999999999994, 'wmoUnit:degree_(angle)', 'angle')).toBe(0);
    expect(Object.is(core(-0, 'wmoUnit:degree_(angle)', 'angle'), 0)).toBe(true);
  });

  it('leaves a direction beyond the circle as it is, for the range gate to see', () => {
    expect(core(370, 'wmoUnit:degree_(angle)', 'angle')).toBe(370);
  });

  it('gives every whole knot the value of the same limit in knots, to the slack of scoring', () => {
    for (let knots = 0; knots <= 120; knots += 1) {
      const limit = parseQuantity(`${knots} kt`, 'speed') as { value: number };
      expect(
        Math.abs((core(knots * 1.852, 'wmoUnit:km_h-1', 'speed') ?? Number.NaN) - limit.value),
      ).toBeLessThan(1e-9);
    }
  });
});
