// How far this process may be behind the store, and what follows from it.

import type { Mirror } from '#memory/mirror.ts';
import type { NotReady } from '#publish/not-ready.ts';
import { CAUSE_SENTENCES } from '#store/cause-sentences.ts';
import type { StoreHealth } from '#store/store-health.ts';

export interface StoreWatch {
  /** Why no answer may be given now; null where one may. */
  whySilent(): string | null;
  /** Why not ready to take requests; sooner than silent, so that they go elsewhere first. */
  whyNotReady(): NotReady | null;
  /** Since the store was last read without a fault; null before the first time. */
  ageMs(): number | null;
}

export interface StoreWatchOptions {
  readonly mirror: Pick<Mirror, 'syncedAtMs'>;
  readonly health: () => StoreHealth;
  /** A clock that nobody sets: `performance.now`. */
  readonly steadyMs: () => number;
  readonly nowMs: () => number;
}

/** So long without the store, and limits may have been changed without our knowing [ms]. */
const SILENT_AFTER_MS = 60_000;
/** What cannot be kept for so long is news that is lost: new warnings are no longer in the answers [ms]. */
const UNKEPT_AFTER_MS = 300_000;
const NOT_READY_AFTER_MS = 10_000;

const seconds = (ms: number): string => `${Math.round(ms / 1000)} s`;

export function createStoreWatch({ mirror, health, steadyMs, nowMs }: StoreWatchOptions): StoreWatch {
  const ageMs = (): number | null => {
    const synced = mirror.syncedAtMs();
    return synced === null ? null : Math.max(0, steadyMs() - synced);
  };
  return {
    ageMs,
    whySilent() {
      const age = ageMs();
      if (age === null) return 'the store has not been read yet';
      if (age > SILENT_AFTER_MS) return `the store has not been read for ${seconds(age)}`;
      const state = health();
      // A clock that was set back must not make it shorter, nor sleep, in which the steady clock may stand.
      const unkeptMs = state.ok ? 0 : Math.max(nowMs() - state.sinceMs, state.forMs);
      return state.ok || unkeptMs <= UNKEPT_AFTER_MS
        ? null
        : `the store has failed for too long: ${state.message}`;
    },
    whyNotReady() {
      const state = health();
      // The message may name files and hosts.
      if (!state.ok)
        return {
          code: `store-${state.cause}`,
          sentence: `${CAUSE_SENTENCES[state.cause]} (for ${seconds(state.forMs)})`,
        };
      const age = ageMs();
      if (age === null) return { code: 'store-unread', sentence: 'the store has not been read yet' };
      if (age <= NOT_READY_AFTER_MS) return null;
      return { code: 'store-unread', sentence: `the store has not been read for ${seconds(age)}` };
    },
  };
}
