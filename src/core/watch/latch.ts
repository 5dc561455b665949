// Worse at once, better slowly: readings in order of time → true, false or unknown. What was beyond stays so until it has been
// clear for long enough; what goes silent meanwhile is unknown, never over.

import type { Truth } from './condition.ts';

/** near: within the bound, but by less than the margin. unsure: measured, and nobody can say on which side. */
export type Side = 'beyond' | 'near' | 'clear' | 'unsure';

export interface Reading {
  readonly atMs: number;
  /** From then on it says nothing of now [epoch ms]. */
  readonly freshUntilMs: number;
  readonly side: Side;
  /** Whose reading it is. */
  readonly station: string;
}

export interface Latched {
  readonly truth: Truth;
  /** True where it is, or was and is not known to be over. */
  readonly raised: boolean;
  /** What it is told by: the newest that was beyond while it is raised, else the newest. */
  readonly cause: Reading | null;
  /** Raised: the moment of the newest reading that was not clear. Over, or never: of the newest. Null where nobody can say. */
  readonly asOfMs: number | null;
}

/** How it stood at the evaluation before, where it was raised: it is over only by what is newer than this. */
export interface WasRaised {
  readonly asOfMs: number;
}

/** `readings` in order of time. Clear time counts to now, so that a station by the hour need not tell twice. */
export function latch(
  readings: readonly Reading[],
  nowMs: number,
  clearsForMs: number,
  was: WasRaised | null,
): Latched {
  const last = readings.at(-1) ?? null;
  const says = last !== null && nowMs <= last.freshUntilMs && last.side !== 'unsure';
  const notClear = readings.findLast((r) => r.side !== 'clear');
  const heldMs = Math.max(
    notClear?.atMs ?? Number.NEGATIVE_INFINITY,
    was?.asOfMs ?? Number.NEGATIVE_INFINITY,
  );
  const clearFrom = clearSince(readings, heldMs);
  const isOver = says && clearFrom !== null && nowMs - clearFrom.atMs >= clearsForMs;
  const beyond = readings.findLast((r) => r.side === 'beyond') ?? null;
  if ((beyond === null && was === null) || isOver) {
    return { truth: says ? 'false' : 'unknown', raised: false, cause: last, asOfMs: says ? last.atMs : null };
  }
  return { truth: says ? 'true' : 'unknown', raised: true, cause: beyond ?? last, asOfMs: heldMs };
}

/** The first of the clear readings at the end that follow on each other without a silence; all are newer than `heldMs`. */
function clearSince(readings: readonly Reading[], heldMs: number): Reading | null {
  let first: Reading | null = null;
  for (const reading of readings.toReversed()) {
    if (reading.side !== 'clear' || reading.atMs <= heldMs) break;
    if (first !== null && reading.freshUntilMs < first.atMs) break;
    first = reading;
  }
  return first;
}

/** Readings of several stations in one order of time; of one moment the gravest last. */
export const inOrderOfTime = (readings: readonly Reading[]): Reading[] =>
  [...readings].sort((a, b) => a.atMs - b.atMs || GRAVITY[a.side] - GRAVITY[b.side]);

const GRAVITY: Readonly<Record<Side, number>> = { clear: 0, near: 1, unsure: 2, beyond: 3 };
