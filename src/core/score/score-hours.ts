// Each hour against each limit: class by its cut values, and the room to the bound that decides. Works on whole columns.

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
 * A value on a bound belongs to the worse class unless the limit says inclusive. No value: class missing.
 */
export function scoreHours(column: Column, limit: ElementLimit): LimitScores {
  const { values } = column;
  const classes = new Uint8Array(values.length);
  const room = new Float64Array(values.length);
  const bound = new Uint8Array(values.length);
  const [lowStop, lowHold, highHold, highStop] = boundsOf(limit).map((b) => b?.value ?? Number.NaN) as [
    number,
    number,
    number,
    number,
  ];
  // Moved cuts: `room < cut` is broken. Inclusive bounds may be reached, others may not.
  const slack = (at: number) => (limit.inclusive ? -1 : 1) * ON_BOUND * Math.max(1, Math.abs(at));
  for (let h = 0; h < values.length; h += 1) {
    const value = values[h] as number;
    if (Number.isNaN(value)) {
      classes[h] = CLASS.missing;
      room[h] = Number.NaN;
      continue;
    }
    const toLowStop = value - lowStop;
    const toHighStop = highStop - value;
    const toLowHold = value - lowHold;
    const toHighHold = highHold - value;
    if (toLowStop <= slack(lowStop)) set(classes, room, bound, h, CLASS.stop, toLowStop, 0);
    else if (toHighStop <= slack(highStop)) set(classes, room, bound, h, CLASS.stop, toHighStop, 3);
    else if (toLowHold <= slack(lowHold)) set(classes, room, bound, h, CLASS.hold, toLowHold, 1);
    else if (toHighHold <= slack(highHold)) set(classes, room, bound, h, CLASS.hold, toHighHold, 2);
    else {
      const nearest = nearestBound([toLowStop, toLowHold, toHighHold, toHighStop]);
      set(classes, room, bound, h, CLASS.go, nearest.room, nearest.index);
    }
  }
  return { limit, classes, room, bound };
}

function set(
  classes: Uint8Array,
  room: Float64Array,
  bound: Uint8Array,
  hour: number,
  name: number,
  roomValue: number,
  boundIndex: number,
): void {
  classes[hour] = name;
  room[hour] = roomValue;
  bound[hour] = boundIndex;
}

function nearestBound(rooms: readonly number[]): { room: number; index: number } {
  let index = -1;
  let room = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rooms.length; i += 1) {
    if ((rooms[i] as number) < room) {
      room = rooms[i] as number;
      index = i;
    }
  }
  return { room, index: Math.max(0, index) };
}
