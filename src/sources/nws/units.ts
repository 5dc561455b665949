// Units as the NWS API writes them → core units. Strict: a unit that the table lacks makes its layer unusable, never a
// guess, since a layer once changed from m/s to km/h with only this text to tell.

import type { Dimension } from '#core/units/quantity.ts';

/** core = value × factor + offset, then rounded; directions wrap 360 to 0. */
export interface Conversion {
  readonly factor: number;
  readonly offset: number;
  readonly wraps: boolean;
}

const by = (factor: number, offset = 0): Conversion => ({ factor, offset, wraps: false });
const SAME = by(1);
const ANGLE: Conversion = { factor: 1, offset: 0, wraps: true };
const FOOT_M = 0.3048; // international foot, exact
const MILE_M = 1609.344; // exact
const KNOT_MPS = 1852 / 3600; // international knot, exact

/**
 * Keyed on what follows the last colon: `unit:` and `wmoUnit:` codes (codes.wmo.int/common/unit), and bare UCUM codes
 * (ucum.org), which the API's specification announces as their successors.
 */
const TABLE: Readonly<Partial<Record<Dimension, Readonly<Record<string, Conversion>>>>> = {
  speed: {
    'km_h-1': by(1 / 3.6),
    'km/h': by(1 / 3.6),
    'm_s-1': SAME,
    'm/s': SAME,
    kt: by(KNOT_MPS),
    '[kn_i]': by(KNOT_MPS),
    '[mi_i]/h': by(MILE_M / 3600),
  },
  angle: { 'degree_(angle)': ANGLE, deg: ANGLE },
  percent: { percent: SAME, '%': SAME },
  temperature: {
    degC: SAME,
    Cel: SAME,
    degF: by(5 / 9, -160 / 9),
    '[degF]': by(5 / 9, -160 / 9),
    K: by(1, -273.15),
  },
  length: { m: SAME, km: by(1000), ft: by(FOOT_M), '[ft_i]': by(FOOT_M) },
  precipitation: { mm: SAME, cm: by(10), '[in_i]': by(25.4) },
  pressure: { Pa: by(0.01), hPa: SAME },
  plain: { '1': SAME },
};

/**
 * How values in a unit become core values of a dimension; null where the table does not know the unit or it measures
 * something else.
 */
export function conversionOf(unit: string, dimension: Dimension): Conversion | null {
  const name = unit.slice(unit.lastIndexOf(':') + 1);
  const row = TABLE[dimension];
  return row && Object.hasOwn(row, name) ? (row[name] ?? null) : null;
}

/**
 * Converts one value. The result is rounded to 1e-9 of the core unit, because the API's numbers carry float noise
 * (29.999999999999996 for 30) and equal values must compare equal.
 */
export function convert(value: number, conversion: Conversion): number {
  const core = roundNano(value * conversion.factor + conversion.offset);
  return conversion.wraps && core === 360 ? 0 : core;
}

/** Rounds to 1e-9; adding zero turns -0 into 0. */
const roundNano = (value: number): number => Math.round(value * 1e9) / 1e9 + 0;
