// A look at a burn under an id, with taps, a notice, its message and two deliveries; and what of it is there.

import type { Store } from '#store/store.ts';
import type { WatchPatch } from '#store/watch/records.ts';
import { eventOf } from '../builders/store.ts';
import { burnOf, deliveryOf, observationOf, raisedAt, tapOf } from '../builders/watch-records.ts';

/** So short that whoever comes after one that was killed finds its deliveries free again. */
export const SHORT_LEASE = { sendTimeoutMs: 1, leaseMs: 30, sendWithinMs: 60_000 };

const FAR_MS = 8e15;

export function burnLookOf(id: string): Omit<WatchPatch, 'replaces'> {
  const site = `o/${id}`;
  return {
    ...raisedAt(site, id).patch,
    taps: [tapOf(id, { burn: id }), tapOf(`${id} later`, { burn: id, tap: 'charging' })],
    burns: [burnOf(id, { site })],
    observations: [observationOf(1)],
    deliveries: ['ana', 'ben'].map((contact) => deliveryOf(id, { site, contact, validUntilMs: FAR_MS })),
    events: [eventOf(site, { subject: `look ${id}` })],
  };
}

export interface KeptLooks {
  /** Ids of which everything is there. */
  readonly whole: ReadonlySet<string>;
  /** Ids of which a part is there. Must be empty. */
  readonly broken: readonly string[];
  /** Ids of deliveries that were sent. */
  readonly sent: ReadonlySet<string>;
}

export async function looksIn(store: Store): Promise<KeptLooks> {
  const threads = new Map((await store.watch.openThreads(1_000_000)).map((t) => [t.message.id, t]));
  const standing = new Map((await store.watch.standing()).map((n) => [n.episode, n]));
  const burns = new Map((await store.watch.openBurns()).map((b) => [b.id, b]));
  const ids = new Set([...threads.keys(), ...standing.keys(), ...burns.keys()]);
  const whole = new Set<string>();
  for (const id of ids) {
    const site = `o/${id}`;
    const taps = (await store.watch.burn(site, id))?.taps ?? [];
    const observed = await store.watch.observations(site, 0, 9);
    const transitions = await store.watch.transitions(site, 0, FAR_MS, 9);
    const counts = [taps.length, observed.length, transitions.length, threads.get(id)?.deliveries.length];
    if (standing.has(id) && counts.join() === '2,1,1,2') whole.add(id);
  }
  const deliveries = [...threads.values()].flatMap((t) => t.deliveries);
  return {
    whole,
    broken: [...ids].filter((id) => !whole.has(id)),
    sent: new Set(deliveries.filter((d) => d.outcome === 'sent').map((d) => d.id)),
  };
}
