// What a subscription may be sent: what the key that wrote it may see, and of that what it asked for.

import { isWithin, type SubscriptionBody } from '#core/events/subscription.ts';
import { keyState } from '#publish/access/key-life.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { Viewer } from '#publish/viewer.ts';
import type { ApiKey } from '#store/api-key.ts';
import type { Subscription } from '#store/hooks/records.ts';

/** Null: that key has ended, and so has the subscription. */
export function ownerOf(
  { key, organisation }: Pick<Subscription, 'key' | 'organisation'>,
  keys: readonly ApiKey[],
  nowMs: number,
): Viewer | null {
  // Written at this machine itself, where no key is asked for.
  if (key === null) return { organisation, sites: null, scopes: new Set(['read']), name: 'subscription' };
  const found = keys.find(({ prefix }) => prefix === key);
  if (!found || found.organisation !== organisation || keyState(found, nowMs) !== 'live') return null;
  return { organisation, sites: found.sites, scopes: new Set(found.scopes), name: found.name, key };
}

export const isOwnerGone = (...asked: Parameters<typeof ownerOf>): boolean => ownerOf(...asked) === null;

/** The owner, as if the key were for the sites alone that were asked for, as they lie now. */
export function reachOf(
  owner: Viewer,
  { sites, area }: Pick<SubscriptionBody, 'sites' | 'area'>,
  desk: Pick<PlanDesk, 'sites'>,
): Viewer {
  const allowed = owner.sites;
  const named = sites === null ? allowed : sites.filter((id) => allowed === null || allowed.includes(id));
  if (area === null) return { ...owner, sites: named };
  const there = desk.sites(owner).filter(({ id }) => named === null || named.includes(id));
  return { ...owner, sites: there.filter(({ at }) => isWithin(area, at)).map(({ id }) => id) };
}
