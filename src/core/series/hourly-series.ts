// Hourly columns of one place, in core units, with what is missing and why. Hour h stands for [start + h, start + h + 1 h).

import { HOUR_MS } from '#core/units/time.ts';
import { ELEMENT_NAMES, type Element } from './elements.ts';

/** Why an hour has no value. `ended`: the element stops before the others and is never extended. */
export const MISSING_REASONS = [
  'none',
  'gap',
  'null-value',
  'out-of-range',
  'contradictory',
  'part-covered',
  'ended',
  'layer-absent',
  'layer-empty',
  'unit-unknown',
  'layer-unreadable',
] as const;
export type MissingReason = (typeof MISSING_REASONS)[number];

export const missingCode = (reason: MissingReason): number => MISSING_REASONS.indexOf(reason);

export interface Column {
  /** One value per hour in the element's core unit; NaN where there is none. */
  readonly values: Float64Array;
  /** One code per hour, index into MISSING_REASONS; 0 where there is a value. */
  readonly missing: Uint8Array;
  /** 1 where the value was derived from other elements; null where none was. */
  readonly derived: Uint8Array | null;
}

export interface HourlySeries {
  readonly startMs: number;
  readonly hours: number;
  readonly columns: Readonly<Record<Element, Column>>;
}

/**
 * Columns of one length that share two stretches of memory: a typed array of its own for each column costs more than
 * filling it. All zeros.
 */
export function makeColumns(count: number, hours: number): Column[] {
  const values = new ArrayBuffer(8 * count * hours);
  const missing = new ArrayBuffer(count * hours);
  const columns: Column[] = [];
  for (let column = 0; column < count; column += 1) {
    const from = column * hours;
    columns.push({
      values: new Float64Array(values, 8 * from, hours),
      missing: new Uint8Array(missing, from, hours),
      derived: null,
    });
  }
  return columns;
}

/** A column without any value, for one reason. */
export function missingColumn(hours: number, reason: MissingReason): Column {
  return {
    values: new Float64Array(hours).fill(Number.NaN),
    missing: new Uint8Array(hours).fill(missingCode(reason)),
    derived: null,
  };
}

/** Columns are never written to once they are in a series, so that all series of a length share the one of nothing. */
let absent = missingColumn(0, 'layer-absent');
function absentColumn(hours: number): Column {
  if (absent.values.length !== hours) absent = missingColumn(hours, 'layer-absent');
  return absent;
}

/** A series of the columns given; elements not given are absent layers. */
export function makeSeries(
  startMs: number,
  hours: number,
  columns: Partial<Record<Element, Column>>,
): HourlySeries {
  const all = {} as Record<Element, Column>;
  for (const element of ELEMENT_NAMES) all[element] = columns[element] ?? absentColumn(hours);
  return { startMs, hours, columns: all };
}

export const endOf = (series: HourlySeries): number => series.startMs + series.hours * HOUR_MS;

/** Index of the hour that holds an instant; may lie outside of 0 … hours - 1. */
export const hourAt = (series: HourlySeries, ms: number): number =>
  Math.floor((ms - series.startMs) / HOUR_MS);

/** Value of an hour, or null where there is none or the hour is outside of the series. */
export function valueAt(series: HourlySeries, element: Element, hour: number): number | null {
  const value = series.columns[element].values[hour];
  return value === undefined || Number.isNaN(value) ? null : value;
}

/** Why an hour has no value; `ended` beyond the series. */
export function missingReasonAt(series: HourlySeries, element: Element, hour: number): MissingReason {
  const code = series.columns[element].missing[hour];
  return code === undefined ? 'ended' : (MISSING_REASONS[code] as MissingReason);
}
