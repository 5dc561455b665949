// Puts a site together: what the operator wrote, the zone that the forecast point knows, the orders that hold there.

import type { LimitSet } from '#core/score/limit.ts';
import type { Site } from '#core/site/site.ts';
import { orderOf } from './orders.ts';
import { type Config, limitSetNamed } from './schema.ts';
import { draftSite, type SiteFields } from './sites.ts';

export interface BuiltSite {
  readonly site: Site;
  readonly limits: LimitSet;
}

/**
 * The site and its limits. `pointTimeZone` is used where the site names no zone of its own.
 * Null where the limit set does not exist (the schema refuses such a configuration).
 */
export function buildSite(config: Config, fields: SiteFields, pointTimeZone: string): BuiltSite | null {
  const limits = limitSetNamed(config, fields.limits);
  if (limits === null) return null;
  const draft = draftSite(fields);
  const timeZone = draft.timeZone ?? pointTimeZone;
  const orders = config.orders
    .filter((order) => order.sites === 'all' || order.sites.includes(fields.id))
    .map((order) => orderOf(order, timeZone));
  return { site: { ...draft, timeZone, orders }, limits };
}
