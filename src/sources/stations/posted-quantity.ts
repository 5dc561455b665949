// Quantities of a posted reading: "12 mph", or { value: 12, unit: mph }. A bare number has no unit and is refused.

import { z } from 'zod';
import { type Dimension, parseQuantity, unitsOf } from '#core/units/quantity.ts';

interface OwnUnits {
  readonly [unit: string]: number;
}

/** To Pa; the conventional inch of mercury as in NIST SP 811, appendix B.8. */
const PRESSURE: OwnUnits = { hPa: 100, mbar: 100, kPa: 1000, Pa: 1, inHg: 3386.389 };
/** To seconds. */
const SPAN: OwnUnits = { s: 1, min: 60, h: 3600 };

const MOST_CHARACTERS = 40;

const asWritten = z.union(
  [z.string().max(MOST_CHARACTERS), z.strictObject({ value: z.number(), unit: z.string().max(20) })],
  'expected a quantity with its unit, such as "12 mph" or { "value": 12, "unit": "mph" }',
);

const textOf = (told: z.output<typeof asWritten>): string =>
  typeof told === 'string' ? told : `${plain(told.value)} ${told.unit}`;

/** As a decimal number: an exponent would be no quantity. */
const plain = (value: number): string => (Number.isFinite(value) ? value.toFixed(9) : 'no number');

/** In the core unit of a dimension: m/s, °C, %, m. */
export const told = (dimension: Extract<Dimension, 'speed' | 'temperature' | 'percent' | 'length'>) =>
  asWritten.transform((written, context) => {
    const parsed = parseQuantity(textOf(written), dimension);
    if (!('fault' in parsed)) return parsed.value;
    context.addIssue({ code: 'custom', message: expected(unitsOf(dimension)) });
    return z.NEVER;
  });

const own = (units: OwnUnits) =>
  asWritten.transform((written, context) => {
    const match = /^\s*(\d{1,9}(?:\.\d{1,9})?)\s*([A-Za-z]+)\s*$/.exec(textOf(written));
    const unit = match?.[2] ?? '';
    const factor = Object.hasOwn(units, unit) ? units[unit] : undefined;
    if (match && factor !== undefined) return Number(match[1]) * factor;
    context.addIssue({ code: 'custom', message: expected(Object.keys(units)) });
    return z.NEVER;
  });

const expected = (units: readonly string[]): string =>
  `expected a number with one of the units ${units.join(', ')}`;

/** In Pa. */
export const toldPressure = own(PRESSURE);
/** In seconds. */
export const toldSpan = own(SPAN);
