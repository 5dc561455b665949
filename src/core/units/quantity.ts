// Units by name: parses "15 mph" to core units and turns core values back. One core unit per dimension.

export type Dimension =
  | 'speed'
  | 'length'
  | 'precipitation'
  | 'temperature'
  | 'percent'
  | 'angle'
  | 'ventilation'
  | 'pressure'
  | 'duration'
  | 'plain';

interface UnitRow {
  readonly dimension: Dimension;
  /** core = value * factor + offset */
  readonly factor: number;
  readonly offset: number;
}

const row = (dimension: Dimension, factor: number, offset = 0): UnitRow => ({ dimension, factor, offset });

const FOOT_M = 0.3048; // international foot, exact
const MILE_M = 1609.344; // exact
const KNOT_MPS = 1852 / 3600; // international knot, exact

/** Every unit that people may write. Core units: m/s, m, mm, °C, %, deg, m²/s, hPa, min, 1. */
const UNITS: Readonly<Record<string, UnitRow>> = {
  'm/s': row('speed', 1),
  'km/h': row('speed', 1 / 3.6),
  mph: row('speed', MILE_M / 3600),
  kt: row('speed', KNOT_MPS),
  m: row('length', 1),
  km: row('length', 1000),
  ft: row('length', FOOT_M),
  yd: row('length', 3 * FOOT_M),
  mi: row('length', MILE_M),
  mm: row('precipitation', 1),
  in: row('precipitation', 25.4),
  '°C': row('temperature', 1),
  degC: row('temperature', 1),
  '°F': row('temperature', 5 / 9, -160 / 9),
  degF: row('temperature', 5 / 9, -160 / 9),
  '%': row('percent', 1),
  deg: row('angle', 1),
  '°': row('angle', 1),
  'm2/s': row('ventilation', 1),
  'm²/s': row('ventilation', 1),
  'kt-ft': row('ventilation', KNOT_MPS * FOOT_M),
  'mph-ft': row('ventilation', (MILE_M / 3600) * FOOT_M),
  hPa: row('pressure', 1),
  min: row('duration', 1),
  h: row('duration', 60),
  '1': row('plain', 1),
};

export interface Quantity {
  /** In the dimension's core unit. */
  readonly value: number;
  /** The unit as it was written. */
  readonly unit: string;
}

/** Names of the units of a dimension, for messages. */
export const unitsOf = (dimension: Dimension): string[] =>
  Object.keys(UNITS).filter((name) => UNITS[name]?.dimension === dimension && name !== '1');

/**
 * Parses "15 mph", "30 %", "1 h" or, for plain indices, "8".
 * Returns the value in core units, or a sentence that says what was expected.
 */
export function parseQuantity(text: string | number, dimension: Dimension): Quantity | { fault: string } {
  const match = /^\s*([+-]?\d+(?:[.,]\d+)?)\s*(.*?)\s*$/.exec(String(text));
  const expected =
    dimension === 'plain'
      ? 'a plain number'
      : `a number with one of the units ${unitsOf(dimension).join(', ')}`;
  if (!match || (match[1] as string).includes(',')) return { fault: `expected ${expected}, found "${text}"` };
  const written = match[2] as string;
  const name = written === '' && dimension === 'plain' ? '1' : written;
  if (dimension === 'plain' && written !== '') return { fault: `expected ${expected}, found "${text}"` };
  const unit = Object.hasOwn(UNITS, name) ? UNITS[name] : undefined;
  if (unit?.dimension !== dimension) return { fault: `expected ${expected}, found "${text}"` };
  const value = toCore(Number(match[1]), unit);
  // A number too long for the machine would make a bound that never holds.
  if (!Number.isFinite(value)) return { fault: `expected ${expected}, found "${text}"` };
  return { value, unit: name };
}

const toCore = (value: number, unit: UnitRow): number => value * unit.factor + unit.offset;

/** Value in a named unit → core value. Throws on a unit that the table lacks: a fault of the program. */
export function coreOf(value: number, unit: string): number {
  const found = Object.hasOwn(UNITS, unit) ? UNITS[unit] : undefined;
  if (!found) throw new RangeError(`no such unit: ${unit}`);
  return toCore(value, found);
}

/** Core value → value in a named unit. Throws on a unit that the table lacks: a fault of the program. */
export function inUnit(core: number, unit: string): number {
  const found = UNITS[unit];
  if (!found) throw new RangeError(`no such unit: ${unit}`);
  return (core - found.offset) / found.factor;
}

/** A difference of core values in a named unit: the offset of the scale does not count. */
export function differenceInUnit(coreDifference: number, unit: string): number {
  const found = UNITS[unit];
  if (!found) throw new RangeError(`no such unit: ${unit}`);
  return coreDifference / found.factor;
}
