// How fresh what is held of a site is, by the site's own limits of age.

import type { Round } from '#jobs/whole-round.ts';
import { builtSite } from '#memory/built-sites.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import { freshnessOf } from '#publish/api/forecast-state.ts';
import type { ForecastState } from '#publish/wire.ts';

/** `zone` is that of the site, null where it is not known yet. */
export interface SiteFreshness {
  readonly state: ForecastState['state'];
  readonly zone: string | null;
}

export function siteFreshness(
  mirror: Pick<Mirror, 'state'>,
  key: string,
  definition: SiteDefinition,
  nowMs: number,
): SiteFreshness {
  const held = mirror.state(key);
  const zone = definition.fields.timeZone ?? held.held?.pointTimeZone ?? null;
  const { quality } = builtSite(definition, zone ?? 'UTC').site;
  return { state: freshnessOf(held, quality, nowMs), zone };
}

/** Whether what is held of a site gives no go any more for its age. */
export const tooOld =
  (mirror: Mirror): Round['isTooOld'] =>
  (key, definition, nowMs) =>
    siteFreshness(mirror, key, definition, nowMs).state === 'stale';
