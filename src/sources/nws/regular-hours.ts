// The quick way from a layer to its hours, for layers as they nearly always come: readable, in range, on the hour, in
// order, without overlap. Every other layer takes the long way; both give the same hours, which a property test holds to.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { type Column, missingCode } from '#core/series/hourly-series.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { type IntervalOut, readNextInterval } from './interval.ts';
import type { JsonObject } from './json.ts';
import { type Conversion, convert } from './units.ts';

const NULL = missingCode('null-value');
const GAP = missingCode('gap');
const ENDED = missingCode('ended');

/**
 * Fills one value per hour from `startMs`, a whole hour, into a column of zeros; an amount (`shared`) is shared out
 * evenly. Returns false, and leaves the column unfit for use, where anything about the layer is out of the ordinary.
 */
export function fillRegular(
  element: Element,
  entries: readonly unknown[],
  conversion: Conversion,
  startMs: number,
  into: Column,
): boolean {
  const { least, most, law } = ELEMENTS[element];
  const hours = into.values.length;
  const span: IntervalOut = { fromMs: 0, toMs: 0 };
  let beforeToMs = Number.NEGATIVE_INFINITY;
  let next = 0;
  for (const entry of entries) {
    if (!hasSpan(entry, beforeToMs, span) || span.fromMs < beforeToMs) return false;
    const { value } = entry;
    beforeToMs = span.toMs;
    const first = (span.fromMs - startMs) / HOUR_MS;
    const beyond = (span.toMs - startMs) / HOUR_MS;
    if (!Number.isInteger(first) || !Number.isInteger(beyond)) return false;
    const from = within(first, hours);
    const to = within(beyond, hours);
    if (to > from) {
      leaveOut(into, next, from, GAP);
      next = to;
    }
    if (value === null) {
      leaveOut(into, from, to, NULL);
      continue;
    }
    const core = typeof value === 'number' ? convert(value, conversion) : Number.NaN;
    if (!(core >= least && core <= most)) return false;
    fill(into.values, from, to, law === 'shared' ? core / (beyond - first) : core);
  }
  leaveOut(into, next, hours, ENDED);
  return true;
}

/** Reads an entry's interval; false where it cannot be read or has no length. */
const hasSpan = (entry: unknown, guessMs: number, span: IntervalOut): entry is JsonObject =>
  typeof entry === 'object' &&
  entry !== null &&
  readNextInterval((entry as JsonObject)['validTime'], guessMs, span) === null &&
  span.toMs > span.fromMs;

/** Hour held to 0 … hours. Bitwise or: a small whole number, so that the engine indexes with an integer. */
function within(hour: number, hours: number): number {
  if (hour <= 0) return 0;
  return hour >= hours ? hours : hour | 0;
}

/** Loops, since `fill` of a typed array costs more than the few hours of an interval. */
function fill(values: Float64Array, from: number, to: number, value: number): void {
  for (let h = from; h < to; h += 1) values[h] = value;
}

function leaveOut({ values, missing }: Column, from: number, to: number, reason: number): void {
  for (let h = from; h < to; h += 1) {
    values[h] = Number.NaN;
    missing[h] = reason;
  }
}
