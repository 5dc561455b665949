// Subscriptions as a viewer may see them, be sent again, and try.

import { ServiceError } from '#errors.ts';
import type { SubscriptionDesk, SubscriptionSeen } from '#publish/subscription-desk.ts';
import type { KeptHook } from '#store/hooks/records.ts';
import { auditOf, badBody, findHook, maySeeHook, seenOf } from './hook-seen.ts';
import type { HookSender } from './send-hook.ts';
import { type SubscriptionChangeDeps, subscriptionChanges } from './subscription-changes.ts';

export interface SubscriptionDeskDeps extends SubscriptionChangeDeps {
  readonly sender: HookSender;
  readonly signal: AbortSignal;
}

export function createSubscriptionDesk(deps: SubscriptionDeskDeps): SubscriptionDesk {
  const { hooks, nowMs } = deps;
  const found = findHook(deps);
  const seen = (hook: KeptHook): SubscriptionSeen => seenOf(hook, nowMs());
  return {
    ...subscriptionChanges(deps),
    test: createTesting(deps),
    async list(viewer) {
      const all = await hooks.of(viewer.organisation);
      return all.filter(({ subscription }) => maySeeHook(viewer, subscription, deps.keys())).map(seen);
    },
    one: async (viewer, id) => seen(await found(viewer, id)),
    async deliveries(viewer, id, asked) {
      await found(viewer, id);
      return hooks.attempts(id, asked);
    },
    async replay(viewer, id, after) {
      await found(viewer, id);
      const { last } = await hooks.marks();
      const message = `no event has that position; the last one is ${last}`;
      if (after > last) throw badBody([{ path: 'after', message }]);
      await hooks.moveTo(id, after, auditOf(viewer, nowMs(), 'subscription-replayed', id, { after }));
      deps.wake();
      return seen(await found(viewer, id));
    },
  };
}

/** One at a time of each. */
function createTesting({ hooks, sender, signal, ...deps }: SubscriptionDeskDeps): SubscriptionDesk['test'] {
  const testing = new Set<string>();
  const found = findHook({ hooks, ...deps });
  return async (viewer, id) => {
    const { subscription } = await found(viewer, id);
    if (testing.has(id)) throw new ServiceError('too_many_requests', 'a test of it is under way');
    testing.add(id);
    try {
      const sent = await sender.test(subscription, signal);
      if (sent === null)
        throw new ServiceError('overloaded', 'the service is about to end', { retryable: true });
      await hooks.note(id, sent.attempt);
      return sent.attempt;
    } finally {
      testing.delete(id);
    }
  };
}
