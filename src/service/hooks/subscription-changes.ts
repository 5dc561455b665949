// Subscriptions that are made, changed, taken out, and given another secret.

import { randomBytes, randomUUID } from 'node:crypto';
import type { SubscriptionBody } from '#core/events/subscription.ts';
import { ServiceError } from '#errors.ts';
import type { OutgoingPolicy } from '#notify/outgoing-url.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { OnceAsked, SubscriptionDesk } from '#publish/subscription-desk.ts';
import { signatureOf, type Viewer } from '#publish/viewer.ts';
import type { HookSecret, Subscription } from '#store/hooks/records.ts';
import type { Once } from '#store/once.ts';
import { auditOf, badBody, type FindHookDeps, findHook, seenOf } from './hook-seen.ts';
import { subscriptionFaults } from './subscription-faults.ts';

export interface SubscriptionChangeDeps extends FindHookDeps {
  readonly desk: Pick<PlanDesk, 'sites'>;
  readonly policy: OutgoingPolicy;
  readonly nowMs: () => number;
  /** There may be something to send. */
  wake(): void;
}

type Changes = Pick<SubscriptionDesk, 'add' | 'change' | 'remove' | 'rotate'>;

/** Of one organisation; more than there are centres to be told of one. Ours: no source. */
const MOST = 200;

export const subscriptionChanges = (deps: SubscriptionChangeDeps): Changes => ({
  add: adding(deps),
  change: changing(deps),
  rotate: rotating(deps),
  async remove(viewer, id, replaces) {
    const { subscription } = await findHook(deps)(viewer, id);
    const { revision } = atRevision(subscription, replaces);
    const audit = auditOf(viewer, deps.nowMs(), 'subscription-taken-out', id, { revision });
    await deps.hooks.remove(id, revision, audit);
  },
});

function adding(deps: SubscriptionChangeDeps): Changes['add'] {
  const { hooks, nowMs, wake } = deps;
  return async (viewer, body, once, say) => {
    const { organisation } = viewer;
    check(deps, viewer, body);
    if ((await hooks.of(organisation)).length >= MOST)
      throw badBody([{ path: '(body)', message: `there are ${MOST} subscriptions already` }]);
    const secret = newSecret();
    const id = `hook-${randomUUID().replaceAll('-', '').slice(0, 20)}`;
    const written = writtenBy(viewer, nowMs());
    const secrets = [{ secret, untilMs: null }];
    const changed = await hooks.add(
      { ...written, id, organisation, revision: 1, body, secrets, madeAtMs: nowMs() },
      auditOf(viewer, nowMs(), 'subscription-made', id, { revision: 1 }),
      { request: requestOf(viewer, once, nowMs()), reply: (made) => say(seenOf(made, nowMs()), secret) },
    );
    wake();
    return changed;
  };
}

function changing(deps: SubscriptionChangeDeps): Changes['change'] {
  const { hooks, nowMs, wake } = deps;
  return async (viewer, { id, replaces, body }, say) => {
    const { subscription } = await findHook(deps)(viewer, id);
    const before = atRevision(subscription, replaces);
    check(deps, viewer, body);
    const revision = before.revision + 1;
    const changed = await hooks.change(
      { ...before, ...writtenBy(viewer, nowMs()), revision, body },
      auditOf(viewer, nowMs(), 'subscription-changed', id, { revision }),
      { request: null, reply: (made) => say(seenOf(made, nowMs()), null) },
    );
    wake();
    return changed;
  };
}

function rotating(deps: SubscriptionChangeDeps): Changes['rotate'] {
  const { hooks, nowMs } = deps;
  return async (viewer, { id, replaces, overlapMs }, once, say) => {
    const { subscription: before } = await findHook(deps)(viewer, id);
    const request = requestOf(viewer, once, nowMs());
    // The same request sent again names the revision before: the store knows it by its key.
    if (request === null) atRevision(before, replaces);
    const isNewest = replaces.includes(before.revision);
    const secret = newSecret();
    const revision = isNewest ? before.revision + 1 : NO_REVISION;
    const secrets = rotated(before.secrets, secret, nowMs(), overlapMs);
    return hooks.change(
      // It still sees what its own key may see: another secret asks for nothing more.
      { ...before, ...writtenBy(viewer, nowMs()), key: before.key, revision, secrets },
      auditOf(viewer, nowMs(), 'subscription-secret-rotated', id, { revision }),
      { request, reply: (made) => say(seenOf(made, nowMs()), secret) },
    );
  };
}

/** Never one that is made: asks the store only whether the request came before. */
const NO_REVISION = 0;

function check(deps: SubscriptionChangeDeps, viewer: Viewer, body: SubscriptionBody): void {
  const known = new Set(deps.desk.sites(viewer).map(({ id }) => id));
  const faults = subscriptionFaults(body, deps.policy, known);
  if (faults.length > 0) throw badBody(faults);
}

function atRevision(subscription: Subscription, replaces: readonly number[]): Subscription {
  const { id, revision } = subscription;
  if (replaces.includes(revision)) return subscription;
  const told = `subscription "${id}" was changed meanwhile; its newest revision is "r${revision}"`;
  throw new ServiceError('changed_meanwhile', told);
}

const writtenBy = (viewer: Viewer, nowMs: number) => ({
  key: viewer.key ?? null,
  changedAtMs: nowMs,
  changedBy: signatureOf(viewer),
});

/** 32 bytes: the standard has 24 to 64. */
const newSecret = (): string => `whsec_${randomBytes(32).toString('base64')}`;

/** Two live ones at the most: one that was on its way out ends. */
function rotated(
  before: readonly HookSecret[],
  secret: string,
  nowMs: number,
  overlapMs: number,
): HookSecret[] {
  const newest = before[0];
  const older = newest && overlapMs > 0 ? [{ ...newest, untilMs: nowMs + overlapMs }] : [];
  return [{ secret, untilMs: null }, ...older];
}

/** The reply carries a secret: it is for the key alone that asked. */
const requestOf = (viewer: Viewer, once: OnceAsked | null, atMs: number): Once | null =>
  once && {
    organisation: viewer.organisation,
    key: once.key,
    requestHash: `${once.requestHash} ${viewer.key ?? ''}`,
    atMs,
  };
