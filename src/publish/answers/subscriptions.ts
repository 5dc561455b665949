// Subscriptions and tries → their published form, in UTC: they are of no one site.

import { rfc3339 } from '#core/units/local-time.ts';
import type { DeliverySeen, SubscriptionSeen } from '#publish/subscription-desk.ts';
import type { SubscriptionAnswer, TriedAnswer } from '#publish/wire-subscriptions.ts';

const at = (ms: number): string => rfc3339(ms, 'UTC');
const atOrNull = (ms: number | null): string | null => (ms === null ? null : at(ms));

export function subscriptionAnswer(seen: SubscriptionSeen, secret: string | null): SubscriptionAnswer {
  const { id, revision, body, standing, changedBy } = seen;
  const { missed, ended, failures, nextAtMs } = standing;
  return {
    ...{ id, revision, ...body },
    sites: body.sites && [...body.sites],
    types: body.types && [...body.types],
    madeAt: at(seen.madeAtMs),
    changedAt: at(seen.changedAtMs),
    changedBy,
    olderSecretUntil: atOrNull(seen.olderSecretUntilMs),
    state: stateOf(seen),
    after: String(standing.position),
    failures,
    failingSince: atOrNull(standing.failingSinceMs),
    nextTryAt: failures === 0 || ended !== null ? null : at(nextAtMs),
    lastTakenAt: atOrNull(seen.lastTakenAtMs),
    missed: missed && {
      after: String(missed.from - 1),
      upTo: String(missed.to),
      count: missed.count === 0 ? null : missed.count,
    },
    ended: ended && { why: ended.why, at: at(ended.atMs) },
    ...(secret === null ? {} : { secret }),
  };
}

function stateOf({ body, standing }: SubscriptionSeen): SubscriptionAnswer['state'] {
  if (standing.ended !== null) return 'ended';
  if (!body.active) return 'paused';
  return standing.failures > 0 ? 'failing' : 'sending';
}

export function triedAnswer(seen: Omit<DeliverySeen, 'number'>): TriedAnswer {
  const { webhookId, type, atMs, tookMs, outcome, status, reason, detail } = seen;
  return { webhookId, type, at: at(atMs), tookMs, outcome, status, reason, detail };
}
