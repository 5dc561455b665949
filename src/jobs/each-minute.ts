// A call at each whole minute of the wall clock, never two at once: a call that takes longer than a minute leaves out those
// that began meanwhile.

import { MINUTE_MS } from '#core/units/time.ts';

/** Calls until stopped; `call` never throws. */
export function eachMinute(call: () => Promise<void>, nowMs: () => number): () => void {
  let timer: NodeJS.Timeout | null = null;
  let isStopped = false;
  const waitUntil = (dueMs: number): void => {
    // A timer may come a little early, and the clock may have been set meanwhile: it is looked at again.
    const leftMs = Math.min(MINUTE_MS, dueMs - nowMs());
    timer = setTimeout(async () => {
      if (nowMs() < dueMs) return waitUntil(dueMs);
      await call();
      if (!isStopped) waitUntil(afterMs(nowMs()));
    }, leftMs);
  };
  waitUntil(afterMs(nowMs()));
  return () => {
    isStopped = true;
    if (timer) clearTimeout(timer);
  };
}

const afterMs = (nowMs: number): number => (Math.floor(nowMs / MINUTE_MS) + 1) * MINUTE_MS;
