// Asks the store whether it has room, where nothing else would show it: while it has a fault, and in a process that itself
// keeps nothing but what it writes in place.

import { messageOf } from '#errors.ts';
import type { SourceLog } from '#sources/source.ts';
import type { Store } from '#store/store.ts';

export interface StoreProbeOptions {
  readonly store: { readonly health: Store['health']; readonly care: Pick<Store['care'], 'probe'> };
  /** A process that takes turns learns by them. */
  readonly takesTurns: boolean;
  readonly nowMs: () => number;
  readonly steadyMs: () => number;
  readonly log: SourceLog;
}

/** Between probes while the store seems well, in a process that takes no turns [ms]. */
const UNASKED_FOR_MS = 60_000;

/** To be called every few seconds. Never throws. */
export function createStoreProbe(options: StoreProbeOptions): () => Promise<void> {
  const { store, takesTurns, nowMs, steadyMs, log } = options;
  let probedAtMs = steadyMs();
  let wasWell = true;
  return async () => {
    const health = store.health();
    if (wasWell && !health.ok) log.warn({ cause: health.cause }, 'the store has a fault');
    wasWell = health.ok;
    if (health.ok && (takesTurns || steadyMs() - probedAtMs < UNASKED_FOR_MS)) return;
    probedAtMs = steadyMs();
    try {
      await store.care.probe(nowMs());
    } catch (fault) {
      if (wasWell) log.warn({ message: messageOf(fault) }, 'the store failed a probe');
    }
    if (!wasWell && store.health().ok) log.info({}, 'the store works again');
  };
}
