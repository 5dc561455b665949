// Each hour against each limit: class by its cut values, and the room to the bound that decides. Works on whole columns.

import { ELEMENTS } from '#core/series/elements.ts';
import type { Column, HourlySeries } from '#core/series/hourly-series.ts';
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
export function scoreHours({ values }: Column, limit: ElementLimit): LimitScores {
  const hours = values.length;
  return score(values, {
    limit,
    classes: new Uint8Array(hours),
    room: new Float64Array(hours),
    bound: new Uint8Array(hours),
  });
}

/** All limits over a series. Their scores share two stretches of memory: one each would cost more than the scoring. */
export function scoreAll({ columns, hours }: HourlySeries, limits: readonly ElementLimit[]): LimitScores[] {
  const rooms = new ArrayBuffer(8 * limits.length * hours);
  const small = new ArrayBuffer(2 * limits.length * hours);
  return limits.map((limit, l) =>
    score(columns[limit.element].values, {
      limit,
      room: new Float64Array(rooms, 8 * l * hours, hours),
      classes: new Uint8Array(small, 2 * l * hours, hours),
      bound: new Uint8Array(small, (2 * l + 1) * hours, hours),
    }),
  );
}

function score(values: Float64Array, scores: LimitScores): LimitScores {
  const { limit, classes, room, bound } = scores;
  const { least, most } = ELEMENTS[limit.element];
  const cuts = cutsOf(limit);
  for (let h = 0; h < values.length; h += 1) {
    const value = values[h] as number;
    if (cuts === null || !(value >= least && value <= most)) {
      classes[h] = CLASS.missing;
      room[h] = Number.NaN;
      continue;
    }
    const deciding = decidingBound(value, cuts);
    classes[h] = deciding >> 2;
    bound[h] = deciding & 3;
    room[h] = roomTo(value, cuts, deciding & 3);
  }
  return scores;
}

/** The four bounds in the order of `boundsOf`; one that is not there is infinitely far away. */
interface Cuts {
  readonly lowStop: number;
  readonly lowHold: number;
  readonly highHold: number;
  readonly highStop: number;
  /** A room down to this is still beyond the bound (or, inclusive, still within it): dust of unit conversion. */
  readonly slack: number;
}

/** Null for a limit without a bound, or with one that is no number: it judges nothing. */
function cutsOf(limit: ElementLimit): Cuts | null {
  const bounds = boundsOf(limit);
  const given = bounds.filter((b) => b !== null).map((b) => b.value);
  if (given.length === 0 || !given.every(Number.isFinite)) return null;
  const [lowStop, lowHold, highHold, highStop] = bounds;
  const dust = ON_BOUND * Math.max(1, ...given.map(Math.abs));
  return {
    lowStop: lowStop?.value ?? Number.NEGATIVE_INFINITY,
    lowHold: lowHold?.value ?? Number.NEGATIVE_INFINITY,
    highHold: highHold?.value ?? Number.POSITIVE_INFINITY,
    highStop: highStop?.value ?? Number.POSITIVE_INFINITY,
    slack: limit.inclusive ? -dust : dust,
  };
}

/** Class × 4 + index of the bound that decides: the one broken, stop before hold, else the nearest. */
function decidingBound(value: number, { lowStop, lowHold, highHold, highStop, slack }: Cuts): number {
  if (value - lowStop <= slack) return CLASS.stop * 4;
  if (highStop - value <= slack) return CLASS.stop * 4 + 3;
  if (value - lowHold <= slack) return CLASS.hold * 4 + 1;
  if (highHold - value <= slack) return CLASS.hold * 4 + 2;
  const low = Math.min(value - lowStop, value - lowHold);
  const high = Math.min(highStop - value, highHold - value);
  if (low <= high) return value - lowStop < value - lowHold ? 0 : 1;
  return highStop - value < highHold - value ? 3 : 2;
}

function roomTo(value: number, { lowStop, lowHold, highHold, highStop }: Cuts, index: number): number {
  if (index < 2) return value - (index === 0 ? lowStop : lowHold);
  return (index === 2 ? highHold : highStop) - value;
}
