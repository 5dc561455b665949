// Who may see which subscription, and what of it; what is wrong told in one way.

import { ServiceError } from '#errors.ts';
import type { SubscriptionSeen } from '#publish/subscription-desk.ts';
import { signatureOf, type Viewer } from '#publish/viewer.ts';
import type { ApiKey, AuditRow } from '#store/api-key.ts';
import type { HookRecords, KeptHook, Subscription } from '#store/hooks/records.ts';
import { liveSecrets } from './send-hook.ts';

export interface FindHookDeps {
  readonly hooks: HookRecords;
  keys(): readonly ApiKey[];
}

/** Throws ServiceError `not_found`, whether it is not there or not theirs to see. */
export const findHook =
  ({ hooks, keys }: FindHookDeps) =>
  async (viewer: Viewer, id: string): Promise<KeptHook> => {
    const hook = await hooks.one(id);
    if (hook && maySeeHook(viewer, hook.subscription, keys())) return hook;
    throw new ServiceError('not_found', `no subscription "${id}"`);
  };

/** Whoever is for some sites sees what keys for these alone have written. */
export function maySeeHook(
  viewer: Viewer,
  { organisation, key }: Subscription,
  keys: readonly ApiKey[],
): boolean {
  if (organisation !== viewer.organisation) return false;
  const { sites } = viewer;
  if (sites === null) return true;
  const owner = keys.find(({ prefix }) => prefix === key);
  return owner?.sites?.every((id) => sites.includes(id)) ?? false;
}

export function seenOf({ subscription, standing, lastTakenAtMs }: KeptHook, nowMs: number): SubscriptionSeen {
  const { id, revision, body, madeAtMs, changedAtMs, changedBy, secrets } = subscription;
  const older = liveSecrets(secrets, nowMs)[1];
  return {
    ...{ id, revision, body, madeAtMs, changedAtMs, changedBy, standing, lastTakenAtMs },
    olderSecretUntilMs: older?.untilMs ?? null,
  };
}

export const auditOf = (
  viewer: Viewer,
  atMs: number,
  what: string,
  id: string,
  detail: unknown,
): AuditRow => ({
  atMs,
  organisation: viewer.organisation,
  who: signatureOf(viewer),
  what,
  subject: `subscription ${id}`,
  detail,
});

export function badBody(faults: readonly { path: string; message: string }[]): ServiceError {
  const lines = faults.map((f) => `${f.path}: ${f.message}`).join('; ');
  return new ServiceError('bad_body', lines, { facts: { faults } });
}
