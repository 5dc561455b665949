// Sites put together for judging, once for each definition and zone: the same definition gives the very same object.

import { type BuiltSite, buildFromParts } from '#config/build-site.ts';
import type { SiteDefinition } from './site-definition.ts';

const built = new WeakMap<SiteDefinition, Map<string, BuiltSite>>();

export function builtSite(definition: SiteDefinition, pointTimeZone: string): BuiltSite {
  const byZone = built.get(definition) ?? new Map<string, BuiltSite>();
  const known = byZone.get(pointTimeZone);
  if (known) return known;
  const made = buildFromParts(definition, pointTimeZone);
  built.set(definition, byZone.set(pointTimeZone, made));
  return made;
}
