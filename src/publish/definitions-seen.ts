// What of an organisation's definitions a key for some sites may see: its sites, the limit sets that these name, and the
// orders and contacts that hold for them, without the names of other sites.

import { areaWritten, isInArea } from '#core/site/order-area.ts';
import type { Place } from '#core/site/site.ts';
import type { Definition } from '#store/definition.ts';
import { maySee, type Viewer } from './viewer.ts';

/** `sites`: the site definitions in force. Revisions of one definition may be given, too. */
export function definitionsSeen(
  viewer: Pick<Viewer, 'sites'>,
  definitions: readonly Definition[],
  sites: readonly Definition[],
): readonly Definition[] {
  if (viewer.sites === null) return definitions;
  const own = sites.filter(({ id }) => maySee(viewer, id));
  const limitSets = new Set(own.map(({ body }) => fieldOf(body, 'limits')));
  const seen = definitions.flatMap((definition) => {
    if (definition.kind === 'site') return maySee(viewer, definition.id) ? [definition] : [];
    if (definition.kind === 'limit-set') return limitSets.has(definition.id) ? [definition] : [];
    return ofSitesSeen(viewer, definition, own);
  });
  // That something was taken out is told only to whoever could see it while it was there.
  return seen.some(({ body }) => body !== null) ? seen : [];
}

function ofSitesSeen(
  viewer: Pick<Viewer, 'sites'>,
  definition: Definition,
  own: readonly Definition[],
): Definition[] {
  const area = areaWritten(fieldOf(definition.body, 'within'));
  if (area !== null && !own.some(({ body }) => isInArea(area, placeOf(body)))) return [];
  const named = fieldOf(definition.body, 'sites');
  if (!Array.isArray(named)) return [definition];
  const seen = named.filter((id) => typeof id === 'string' && maySee(viewer, id));
  return seen.length === 0 ? [] : [{ ...definition, body: { ...(definition.body as object), sites: seen } }];
}

function placeOf(site: unknown): Place {
  const [latDeg = Number.NaN, lonDeg = Number.NaN] = (fieldOf(site, 'at') ?? []) as number[];
  return { latDeg, lonDeg };
}

const fieldOf = (body: unknown, name: string): unknown =>
  typeof body === 'object' && body !== null ? (body as Record<string, unknown>)[name] : undefined;
