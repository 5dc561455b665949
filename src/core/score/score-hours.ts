// Each hour against each limit: class by its cut values, and the room to the bound that decides. Works on whole columns.

import { ELEMENTS } from '#core/series/elements.ts';
import type { Column } from '#core/series/hourly-series.ts';
import { boundsOf, type ElementLimit } from './limit.ts';

export const CLASS = { go: 0, hold: 1, stop: 2, missing: 3 } as const;
export type ClassName = keyof typeof CLASS;
export const CLASS_NAMES: readonly ClassName[] = ['go', 'hold', 'stop', 'missing'];

/** Scores of one limit, one per hour. */
export interface LimitScores {
  readonly limit: ElementLimit;
  /** Index into CLASS_NAMES. */
  readonly classes: Uint8Array;
  /** Signed distance to the deciding bound [element's core unit]: positive inside, negative beyond; NaN if missing. */
  readonly room: Float64Array;
  /** Which bound decides, index into `boundsOf(limit)`. */
  readonly bound: Uint8Array;
}

/** A value this near to a bound (relative) is on it: unit conversion leaves such dust. */
const ON_BOUND = 1e-9;

/**
 * Scores a column against a limit. The deciding bound is the one broken (stop before hold), else the nearest.
 * A value on a bound belongs to the worse class unless the limit says inclusive. No value, or one
 * that is absurd: class missing.
 */
export function scoreHours(column: Column, limit: ElementLimit): LimitScores {
  const { values } = column;
  const { least, most } = ELEMENTS[limit.element];
  const classes = new Uint8Array(values.length);
  const room = new Float64Array(values.length);
  const bound = new Uint8Array(values.length);
  const [lowStop, lowHold, highHold, highStop] = boundsOf(limit).map((b) => b?.value ?? Number.NaN) as [
    number,
    number,
    number,
    number,
  ];
  const bounds = boundsOf(limit).filter((b) => b !== null);
  // A limit without a bound, or with one that is no number, judges nothing.
  const usable = bounds.length > 0 && bounds.every((b) => Number.isFinite(b.value));
  // Moved cuts: `room < cut` is broken. Inclusive bounds may be reached, others may not.
  const slack = (at: number) => (limit.inclusive ? -1 : 1) * ON_BOUND * Math.max(1, Math.abs(at));
  const [lowStopCut, lowHoldCut] = [slack(lowStop), slack(lowHold)];
  const [highHoldCut, highStopCut] = [slack(highHold), slack(highStop)];
  const set = (hour: number, name: number, roomValue: number, boundIndex: number): void => {
    classes[hour] = name;
    room[hour] = roomValue;
    bound[hour] = boundIndex;
  };
  for (let h = 0; h < values.length; h += 1) {
    const value = values[h] as number;
    if (!(usable && value >= least && value <= most)) {
      classes[h] = CLASS.missing;
      room[h] = Number.NaN;
      continue;
    }
    const toLowStop = value - lowStop;
    const toHighStop = highStop - value;
    const toLowHold = value - lowHold;
    const toHighHold = highHold - value;
    // A comparison with a bound that is not there (NaN) is false.
    if (toLowStop <= lowStopCut) set(h, CLASS.stop, toLowStop, 0);
    else if (toHighStop <= highStopCut) set(h, CLASS.stop, toHighStop, 3);
    else if (toLowHold <= lowHoldCut) set(h, CLASS.hold, toLowHold, 1);
    else if (toHighHold <= highHoldCut) set(h, CLASS.hold, toHighHold, 2);
    else set(h, CLASS.go, ...nearest(toLowStop, toLowHold, toHighHold, toHighStop));
  }
  return { limit, classes, room, bound };
}

/** The least room and which bound it is to; rooms to bounds that are not there are NaN and never the least. */
function nearest(lowStop: number, lowHold: number, highHold: number, highStop: number): [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let index = 0;
  if (lowStop < least) [least, index] = [lowStop, 0];
  if (lowHold < least) [least, index] = [lowHold, 1];
  if (highHold < least) [least, index] = [highHold, 2];
  if (highStop < least) [least, index] = [highStop, 3];
  return [least, index];
}
