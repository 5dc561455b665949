// Puts a site together: what the operator wrote, the zone that the forecast point knows, the orders that hold there.

import type { LimitSet } from '#core/score/limit.ts';
import type { LocalOrder, Site } from '#core/site/site.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { isOrderFor, type OrderFields, orderOf } from './orders.ts';
import { type Config, limitSetNamed } from './schema.ts';
import { draftSite, type SiteFields } from './sites.ts';

export interface BuiltSite {
  readonly site: Site;
  readonly limits: LimitSet;
}

/** What a site is made of: itself, its limit set, and the orders that name it. */
export interface SiteParts {
  readonly fields: SiteFields;
  readonly limits: LimitSet;
  readonly orders: readonly OrderFields[];
}

/** Null where the limit set does not exist (the schema refuses such a configuration). */
export function partsOf(config: Config, fields: SiteFields): SiteParts | null {
  const limits = limitSetNamed(config, fields.limits);
  return limits && { fields, limits, orders: ordersFor(config.orders, fields) };
}

export const ordersFor = (
  orders: readonly OrderFields[],
  { id, at }: Pick<SiteFields, 'id' | 'at'>,
): OrderFields[] => orders.filter((order) => isOrderFor(order, id, at));

/** As `buildFromParts`, with the limits and orders of a configuration. Null where the limit set does not exist. */
export function buildSite(config: Config, fields: SiteFields, pointTimeZone: string): BuiltSite | null {
  const parts = partsOf(config, fields);
  return parts && buildFromParts(parts, pointTimeZone);
}

/** The site and its limits. `pointTimeZone` is used where the site names no zone of its own. */
export function buildFromParts({ fields, limits, orders }: SiteParts, pointTimeZone: string): BuiltSite {
  const draft = draftSite(fields);
  const timeZone = draft.timeZone ?? pointTimeZone;
  const local = orders.map((order) => orderOf(order, timeZone));
  return { site: { ...draft, timeZone, orders: [...local, ...zoneDoubt(timeZone, pointTimeZone)] }, limits };
}
/** Winter and summer: zones that differ in either read the same clock hours as other instants. */
const PROBES_MS = [Date.UTC(2026, 0, 15, 12), Date.UTC(2026, 6, 15, 12)];

/**
 * A site whose zone keeps another clock than the forecast point's own would have every clock hour, shift and daylight
 * margin at the wrong time: it holds, and says so, until one of the two is mended.
 */
function zoneDoubt(timeZone: string, pointTimeZone: string): LocalOrder[] {
  const offsetAt = (ms: number, zone: string) => rfc3339(ms, zone).slice(19);
  if (PROBES_MS.every((ms) => offsetAt(ms, timeZone) === offsetAt(ms, pointTimeZone))) return [];
  const name = `Time zone in doubt: ${timeZone} here, ${pointTimeZone} at the forecast point`;
  return [{ kind: 'order', name, issuer: 'configuration', fromMs: null, toMs: null, verdict: 'hold' }];
}
