// When subscriptions are to be looked at: when the store says that something is new, when a wait is over, and now and then.

import type { HookRecords } from '#store/hooks/records.ts';

type Marks = Awaited<ReturnType<HookRecords['marks']>>;

export interface HookWake {
  /** Nothing is new, and no wait is over. */
  isQuiet(marks: Marks): boolean;
  /** Everything is looked at now, as of these. */
  lookedAt(marks: Marks): void;
  /** Position of the last event as of then. */
  last(): number;
  /** Look again at that moment [epoch ms]. */
  at(ms: number): void;
}

/** Whatever the marks say: a key may have ended. */
const LOOK_AT_ALL_MS = 60_000;

export function createHookWake(nowMs: () => number): HookWake {
  let seen: Marks = { last: -1, changed: -1 };
  let lookedAtMs = Number.NEGATIVE_INFINITY;
  let wakeAtMs = Number.NEGATIVE_INFINITY;
  return {
    isQuiet({ last, changed }) {
      const now = nowMs();
      const isSame = last === seen.last && changed === seen.changed;
      return isSame && now < wakeAtMs && now >= lookedAtMs && now - lookedAtMs < LOOK_AT_ALL_MS;
    },
    lookedAt(marks) {
      seen = marks;
      lookedAtMs = nowMs();
      wakeAtMs = Number.POSITIVE_INFINITY;
    },
    last: () => seen.last,
    at(ms) {
      wakeAtMs = Math.min(wakeAtMs, ms);
    },
  };
}
