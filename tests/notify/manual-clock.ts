// A clock that only a test moves, with its timers.

import type { ChannelClock } from '#notify/channel.ts';

export interface ManualClock extends ChannelClock {
  /** Moves on and runs what comes due, in order. */
  advance(ms: number): void;
  /** How many timers wait. */
  waiting(): number;
  /** Resolves as soon as a timer for exactly so long is set, or is waiting already. */
  untilSet(ms: number): Promise<void>;
}

interface Timer {
  readonly atMs: number;
  readonly afterMs: number;
  readonly run: () => void;
}

export function manualClock(startMs = Date.parse('2026-03-02T19:42:00Z')): ManualClock {
  let now = startMs;
  const timers = new Set<Timer>();
  const waits = new Set<{ ms: number; resolve: () => void }>();
  return {
    nowMs: () => now,
    after(ms, run) {
      const timer = { atMs: now + ms, afterMs: ms, run };
      timers.add(timer);
      for (const wait of waits) {
        if (wait.ms !== ms) continue;
        waits.delete(wait);
        wait.resolve();
      }
      return () => timers.delete(timer);
    },
    advance(ms) {
      const toMs = now + ms;
      for (;;) {
        const next = [...timers].filter((t) => t.atMs <= toMs).sort((a, b) => a.atMs - b.atMs)[0];
        if (next === undefined) break;
        timers.delete(next);
        now = Math.max(now, next.atMs);
        next.run();
      }
      now = toMs;
    },
    waiting: () => timers.size,
    untilSet(ms) {
      if ([...timers].some((t) => t.afterMs === ms)) return Promise.resolve();
      return new Promise((resolve) => {
        waits.add({ ms, resolve });
      });
    },
  };
}
