// What of an organisation's limit sets and orders goes into a what-if: no more than whoever asks may see.

import type { DefinitionBook } from '#memory/definition-book.ts';
import { siteKeyOf } from '#publish/site-key.ts';
import { maySee, type Viewer } from '#publish/viewer.ts';
import type { Defined } from './read-what-if.ts';

/** A key for some sites: the limit sets that these name, and the orders that hold for them. */
export function definedFor(viewer: Viewer, { sites, limitSets, orders }: DefinitionBook): Defined {
  const { organisation } = viewer;
  const ownSets = limitSets.get(organisation) ?? new Map<string, unknown>();
  const ownOrders = orders.get(organisation) ?? [];
  if (viewer.sites === null) return { limitSets: ownSets, orders: ownOrders };
  const named = new Set(viewer.sites.map((id) => sites.get(siteKeyOf(organisation, id))?.fields.limits));
  return {
    limitSets: new Map([...ownSets].filter(([name]) => named.has(name))),
    orders: ownOrders.flatMap((order) => seenPart(viewer, order)),
  };
}

/** Without the names of sites that are not theirs. */
function seenPart(viewer: Viewer, order: unknown): unknown[] {
  const { sites } = order as { readonly sites?: unknown };
  if (!Array.isArray(sites)) return [order];
  const seen = sites.filter((id) => typeof id === 'string' && maySee(viewer, id));
  return seen.length === 0 ? [] : [{ ...(order as object), sites: seen }];
}
