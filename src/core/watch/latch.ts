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
  /** The moment of the newest reading [epoch ms]. */
  readonly asOfMs: number | null;
}

/** `readings` in order of time. Clear time counts to now, so that a station by the hour need not tell twice. */
export function latch(readings: readonly Reading[], nowMs: number, clearsForMs: number): Latched {
  const last = readings.at(-1);
  if (last === undefined) return { truth: 'unknown', raised: false, cause: null, asOfMs: null };
  const asOfMs = last.atMs;
  const says = nowMs <= last.freshUntilMs && last.side !== 'unsure';
  const beyond = readings.findLast((r) => r.side === 'beyond');
  const clearFrom = readings[readings.findLastIndex((r) => r.side !== 'clear') + 1];
  const isOver = says && clearFrom !== undefined && nowMs - clearFrom.atMs >= clearsForMs;
  if (beyond === undefined || isOver) {
    return { truth: says ? 'false' : 'unknown', raised: false, cause: last, asOfMs };
  }
  return { truth: says ? 'true' : 'unknown', raised: true, cause: beyond, asOfMs };
}

/** Readings of several stations in one order of time; of one moment the gravest last. */
export const inOrderOfTime = (readings: readonly Reading[]): Reading[] =>
  [...readings].sort((a, b) => a.atMs - b.atMs || GRAVITY[a.side] - GRAVITY[b.side]);

const GRAVITY: Readonly<Record<Side, number>> = { clear: 0, near: 1, unsure: 2, beyond: 3 };
