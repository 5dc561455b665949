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
}

export interface Latched {
  readonly truth: Truth;
  /** True where it is, or was and is not known to be over. */
  readonly raised: boolean;
  /** The newest reading that it rests on [epoch ms]. */
  readonly asOfMs: number | null;
}

/** `readings` in order of time. Clear time counts to now, so that a station by the hour need not tell twice. */
export function latch(readings: readonly Reading[], nowMs: number, clearsForMs: number): Latched {
  const last = readings.at(-1);
  if (last === undefined) return { truth: 'unknown', raised: false, asOfMs: null };
  const asOfMs = last.atMs;
  const says = nowMs <= last.freshUntilMs && last.side !== 'unsure';
  if (!readings.some((r) => r.side === 'beyond')) {
    return { truth: says ? 'false' : 'unknown', raised: false, asOfMs };
  }
  if (!says) return { truth: 'unknown', raised: true, asOfMs };
  const clearFrom = readings[readings.findLastIndex((r) => r.side !== 'clear') + 1];
  const isOver = clearFrom !== undefined && nowMs - clearFrom.atMs >= clearsForMs;
  return isOver ? { truth: 'false', raised: false, asOfMs } : { truth: 'true', raised: true, asOfMs };
}

/** Readings of several stations in one order of time; of one moment the gravest last. */
export const inOrderOfTime = (readings: readonly Reading[]): Reading[] =>
  [...readings].sort((a, b) => a.atMs - b.atMs || GRAVITY[a.side] - GRAVITY[b.side]);

const GRAVITY: Readonly<Record<Side, number>> = { clear: 0, near: 1, unsure: 2, beyond: 3 };
