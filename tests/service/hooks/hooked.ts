// The sending of webhooks over a store of its own, on a clock that the test moves: one process, which can die and be followed
// by another over the same store.

import { readFileSync } from 'node:fs';
import type { NewEvent } from '#core/events/event.ts';
import type { SubscriptionBody } from '#core/events/subscription.ts';
import { hookCaller } from '#notify/hook-call.ts';
import type { DeskSite } from '#publish/desk.ts';
import { createEventDesk } from '#service/event-desk.ts';
import { createDelivering, type Delivering } from '#service/hooks/delivering.ts';
import { createHookSender } from '#service/hooks/send-hook.ts';
import type { ApiKey } from '#store/api-key.ts';
import type { HookRecords, KeptHook, Subscription } from '#store/hooks/records.ts';
import type { Store } from '#store/store.ts';
import { hookAuditOf, hookBodyOf, hookOf } from '../../builders/hooks.ts';
import { eventOf, keyOf } from '../../builders/store.ts';
import { type ManualClock, manualClock } from '../../notify/manual-clock.ts';
import { LOOPBACK } from '../../notify/peer.ts';

export const AUTHORITY = readFileSync('fixtures/tls/authority.pem', 'utf8');
export const ORGANISATION = 'fern-hollow';
const SITES = {
  'north-block': [36.438, -120.231],
  'creek-block': [36.372, -120.164],
  far: [45, -110],
} as const;

export interface Process extends Delivering {
  /** As if it were killed: nothing that it does from now on reaches the store, and it lets go of nothing. */
  kill(): void;
  stop(): void;
}

export interface Hooked {
  readonly store: Store;
  readonly clock: ManualClock;
  /** Of the keys: what changes here is in force at once. */
  readonly keys: ApiKey[];
  add(url: string, change?: Partial<SubscriptionBody>, subscription?: Partial<Subscription>): Promise<string>;
  write(...events: Partial<NewEvent>[]): Promise<void>;
  one(id: string): Promise<KeptHook>;
  start(worker: string): Process;
  /** What would have been logged. */
  readonly faults: object[];
}

export function hookedOver(store: Store, clock: ManualClock = manualClock(Date.now())): Hooked {
  const keys: ApiKey[] = [keyOf('a1a1a1a1', { organisation: ORGANISATION, sites: null, createdAtMs: 0 })];
  const faults: object[] = [];
  let count = 0;
  const sites = Object.entries(SITES).map(
    ([id, at]) =>
      ({
        id,
        key: `${ORGANISATION}/${id}`,
        name: `Site ${id}`,
        at,
        timeZone: 'UTC',
        definition: {},
      }) as unknown as DeskSite,
  );
  const desk = {
    sites: (viewer: { sites: readonly string[] | null }) =>
      sites.filter(({ id }) => viewer.sites === null || viewer.sites.includes(id)),
    preferences: { units: 'us', language: 'en' } as const,
  };
  return {
    store,
    clock,
    keys,
    faults,
    async add(url, change = {}, subscription = {}) {
      count += 1;
      const id = `hook-${count}`;
      const reply = { request: null, reply: () => ({ status: 201, body: '', headers: {} }) };
      const made = hookOf(id, {
        organisation: ORGANISATION,
        body: hookBodyOf({ url, ...change }),
        ...subscription,
      });
      await store.hooks.add(made, hookAuditOf('subscription-made'), reply);
      return id;
    },
    async write(...events) {
      const atMs = clock.nowMs();
      await store.commit({
        events: events.map((event) =>
          eventOf(`${ORGANISATION}/north-block`, {
            kind: 'forecast-stale',
            atMs,
            data: { plan: 'p', cause: 'c', changes: [] },
            ...event,
          }),
        ),
      });
    },
    async one(id) {
      const hook = await store.hooks.one(id);
      if (!hook) throw new Error(`no subscription ${id}`);
      return hook;
    },
    start(worker) {
      let isDead = false;
      const stopping = new AbortController();
      const { nowMs, after } = clock;
      const caller = hookCaller(LOOPBACK, 15_000, {
        clock: { nowMs, after },
        resolve: () => Promise.resolve(['127.0.0.1']),
        trust: AUTHORITY,
      });
      const dies = <K extends keyof HookRecords>(name: K): HookRecords[K] =>
        ((...asked: unknown[]) =>
          isDead
            ? new Promise(() => undefined)
            : (store.hooks[name] as (...all: unknown[]) => unknown)(...asked)) as HookRecords[K];
      const hooks = {
        ...store.hooks,
        settle: dies('settle'),
        release: dies('release'),
        claim: dies('claim'),
      };
      const sender = createHookSender({ caller, source: '/v1/events', nowMs, steadyMs: nowMs });
      const delivering = createDelivering(
        {
          ...{ hooks, sender, worker, nowMs, desk },
          events: createEventDesk(store.events),
          say: () => '',
          keys: () => keys,
          random: () => 0.5,
          log: { info: () => undefined, warn: (facts) => faults.push(facts) },
        },
        stopping.signal,
      );
      return {
        ...delivering,
        kill() {
          isDead = true;
        },
        stop: () => stopping.abort(),
      };
    },
  };
}
