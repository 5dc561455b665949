// How long ago something was, on a clock that may have been set back.

import { MINUTE_MS } from '#core/units/time.ts';

/** Clocks of two processes may differ by so much. */
const CLOCKS_DIFFER_MS = MINUTE_MS;

/** A moment that lies ahead was before the clock was set back: nobody knows how long ago, and it counts as long. */
export function elapsedMs(sinceMs: number, nowMs: number): number {
  if (sinceMs > nowMs + CLOCKS_DIFFER_MS) return Number.POSITIVE_INFINITY;
  return Math.max(0, nowMs - sinceMs);
}
