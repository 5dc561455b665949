// Webhooks of a running service: its desk for the API, and the loop that sends.

import { lookup } from 'node:dns/promises';
import type { Config } from '#config/schema.ts';
import { messageOf } from '#errors.ts';
import { hookCaller } from '#notify/hook-call.ts';
import type { HttpDeps } from '#notify/http-call.ts';
import { systemClock } from '#notify/system-clock.ts';
import type { SayCondition } from '#publish/answers/now.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { EventDesk } from '#publish/event-desk.ts';
import type { SubscriptionDesk } from '#publish/subscription-desk.ts';
import { every } from '#service/every.ts';
import type { SourceLog } from '#sources/source.ts';
import type { ApiKey } from '#store/api-key.ts';
import type { Store } from '#store/store.ts';
import { createDelivering } from './delivering.ts';
import { createHookSender } from './send-hook.ts';
import { createSubscriptionDesk } from './subscription-desk.ts';

export interface HookingOptions {
  readonly config: Pick<Config, 'webhooks'>;
  readonly store: Pick<Store, 'hooks' | 'kind'>;
  readonly events: EventDesk;
  readonly desk: PlanDesk;
  readonly say: SayCondition;
  keys(): readonly ApiKey[];
  readonly worker: string;
  /** Whether this process sends: one that only answers does not. */
  readonly takesTurns: boolean;
  readonly nowMs: () => number;
  readonly steadyMs: () => number;
  readonly log: SourceLog;
  /** Where people reach the pages; null where nobody told. */
  readonly publicUrl: string | null;
  /** Timers, names and certificates; injected by tests. */
  readonly http?: Partial<HttpDeps>;
  readonly random?: () => number;
}

export interface Hooking {
  readonly desk: SubscriptionDesk;
  /** Sends what is due, until nothing more is. */
  send(): Promise<void>;
  start(): void;
  stop(): Promise<void>;
}

/** How soon an event is on its way [ms]: a look at two counters. */
const LOOK_EVERY_MS = 250;

export async function createHooking(options: HookingOptions): Promise<Hooking> {
  const { config, store, nowMs, steadyMs, log, keys, desk } = options;
  const { hooks } = store;
  const stopping = new AbortController();
  // A file belongs to one process: what its last one had under way when it was killed is to go on now.
  if (store.kind === 'sqlite') await hooks.releaseAll();
  const { allow, ports, answerWithin } = config.webhooks;
  const policy = { allow, ports };
  const caller = hookCaller(policy, answerWithin * 1000, {
    clock: { nowMs, after: systemClock.after },
    resolve: async (hostname) => (await lookup(hostname, { all: true })).map(({ address }) => address),
    trust: null,
    ...options.http,
  });
  const source = `${options.publicUrl?.replace(/\/$/, '') ?? ''}/v1/events`;
  const sender = createHookSender({ caller, source, nowMs, steadyMs });
  const { events, say, worker, random = Math.random } = options;
  const { signal } = stopping;
  const delivering = createDelivering(
    { hooks, events, desk, say, keys, sender, worker, nowMs, random, log },
    signal,
  );
  const begin = (): Promise<void> =>
    delivering
      .begin()
      .catch((fault: unknown) => log.warn({ message: messageOf(fault) }, 'webhooks could not be sent'));
  const wake = (): void => void (isStarted && begin());
  let isStarted = false;
  let stop = (): void => undefined;
  return {
    desk: createSubscriptionDesk({ hooks, desk, keys, sender, policy, nowMs, wake, signal }),
    send: delivering.all,
    start() {
      if (!options.takesTurns) return;
      isStarted = true;
      stop = every(LOOK_EVERY_MS, begin);
    },
    async stop() {
      stopping.abort();
      stop();
      await delivering.ended();
      await caller.close();
    },
  };
}
