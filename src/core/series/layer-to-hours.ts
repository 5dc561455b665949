// Values over intervals → values of hours, each element by its law. Gaps stay gaps; nothing is extended.

import { HOUR_MS } from '#core/units/time.ts';
import { ELEMENTS, type Element, type HourLaw } from './elements.ts';
import { type Column, missingCode } from './hourly-series.ts';

/** A layer as three columns of equal length, core units; NaN where the source wrote null. Any order. */
export interface Layer {
  readonly fromMs: readonly number[];
  readonly toMs: readonly number[];
  readonly values: readonly number[];
}

/** What was wrong with single intervals; the hours that they touch have no value. */
export interface LayerFaults {
  outOfRange: number;
  contradictory: number;
}

const NULL = missingCode('null-value');
const RANGE = missingCode('out-of-range');
const CONTRADICTORY = missingCode('contradictory');
const PART = missingCode('part-covered');
const GAP = missingCode('gap');
const ENDED = missingCode('ended');

/**
 * Hours of one element from its intervals. An hour has a value only where intervals cover it wholly, each with a value
 * in range. Differing values within one hour: the largest for law `most`, the sum of shares for `shared`, none
 * (`contradictory`) for `held`, since which of them is the graver depends on the limit. Two `shared` intervals that
 * overlap contradict each other.
 */
export function layerToHours(
  element: Element,
  layer: Layer,
  startMs: number,
  hours: number,
): { column: Column; faults: LayerFaults } {
  const filling: Filling = {
    law: ELEMENTS[element].law,
    startMs,
    values: new Float64Array(hours).fill(Number.NaN),
    missing: new Uint8Array(hours),
    coveredMs: new Float64Array(hours),
    coveredToMs: new Float64Array(hours).fill(Number.NEGATIVE_INFINITY),
    faults: { outOfRange: 0, contradictory: 0 },
  };
  const { least, most } = ELEMENTS[element];
  let last = -1;
  for (const i of inOrderOfTime(layer)) {
    const fromMs = layer.fromMs[i] as number;
    const toMs = layer.toMs[i] as number;
    const value = layer.values[i] as number;
    const first = Math.max(0, Math.floor((fromMs - startMs) / HOUR_MS));
    const beyond = Math.min(hours, Math.ceil((toMs - startMs) / HOUR_MS));
    if (beyond <= first || !(fromMs < toMs)) continue;
    last = Math.max(last, beyond - 1);
    const outOfRange = value < least || value > most;
    if (outOfRange) filling.faults.outOfRange += 1;
    const usable = !(outOfRange || Number.isNaN(value));
    for (let h = first; h < beyond; h += 1) {
      if (usable) addToHour(filling, h, fromMs, toMs, value);
      else spoilHour(filling, h, fromMs, toMs, outOfRange ? RANGE : NULL);
    }
  }
  finish(filling, last);
  return {
    column: { values: filling.values, missing: filling.missing, derived: null },
    faults: filling.faults,
  };
}

/** Hours under way, filled interval by interval. */
interface Filling {
  readonly law: HourLaw;
  readonly startMs: number;
  readonly values: Float64Array;
  readonly missing: Uint8Array;
  /** How much of each hour intervals cover so far, and up to when. */
  readonly coveredMs: Float64Array;
  readonly coveredToMs: Float64Array;
  readonly faults: LayerFaults;
}

/** Indices of a layer's intervals by their beginning. */
function inOrderOfTime({ fromMs }: Layer): number[] {
  const order = Array.from(fromMs.keys());
  return order.sort((a, b) => (fromMs[a] as number) - (fromMs[b] as number));
}

/**
 * Notes what an interval covers of an hour; a stretch covered before counts once. Returns the interval's part of the
 * hour, and whether it overlaps an earlier one there.
 */
function cover(
  filling: Filling,
  hour: number,
  fromMs: number,
  toMs: number,
): { part: number; overlaps: boolean } {
  const hourMs = filling.startMs + hour * HOUR_MS;
  const from = Math.max(fromMs, hourMs);
  const to = Math.min(toMs, hourMs + HOUR_MS);
  const coveredTo = filling.coveredToMs[hour] as number;
  const fresh = to - Math.max(from, coveredTo);
  if (fresh > 0) {
    filling.coveredMs[hour] = (filling.coveredMs[hour] as number) + fresh;
    filling.coveredToMs[hour] = to;
  }
  return { part: to - from, overlaps: from < coveredTo };
}

function spoilHour(filling: Filling, hour: number, fromMs: number, toMs: number, why: number): void {
  cover(filling, hour, fromMs, toMs);
  filling.missing[hour] = why;
}

function addToHour(filling: Filling, hour: number, fromMs: number, toMs: number, value: number): void {
  const { values, law } = filling;
  const { part, overlaps } = cover(filling, hour, fromMs, toMs);
  const known = values[hour] as number;
  if (law === 'shared') {
    values[hour] = (Number.isNaN(known) ? 0 : known) + (value * part) / (toMs - fromMs);
    if (overlaps) markContradictory(filling, hour);
  } else if (Number.isNaN(known)) {
    values[hour] = value;
  } else if (law === 'most') {
    values[hour] = Math.max(known, value);
  } else if (known !== value) {
    markContradictory(filling, hour);
  }
}

function markContradictory({ missing, faults }: Filling, hour: number): void {
  if (missing[hour] !== CONTRADICTORY) faults.contradictory += 1;
  missing[hour] = CONTRADICTORY;
}

/** Hours that are not wholly covered, or that were spoiled, have no value. */
function finish({ values, missing, coveredMs }: Filling, last: number): void {
  for (let h = 0; h < values.length; h += 1) {
    const covered = coveredMs[h] as number;
    if (covered === 0) missing[h] = h > last ? ENDED : GAP;
    else if (covered < HOUR_MS - 0.5 && missing[h] === 0) missing[h] = PART;
    if (missing[h] !== 0) values[h] = Number.NaN;
  }
}
