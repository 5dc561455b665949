// Burns whose site is not in force: it was taken out, or its definition cannot be read. Where they lie nobody can say; that
// they burn is known all the same.

import type { Burn } from '#core/watch/burn.ts';
import { maySee, type Viewer } from '#publish/viewer.ts';

export interface UnplacedBurn {
  /** Id of the site within its organisation. */
  readonly site: string;
  readonly burn: Burn;
}

/** `known`: the sites in force that the viewer may see, by their keys. */
export function unplacedBurns(
  viewer: Viewer,
  burns: readonly Burn[],
  known: ReadonlyMap<string, unknown>,
): UnplacedBurn[] {
  const organisation = `${viewer.organisation}/`;
  return burns.flatMap((burn) => {
    if (!burn.site.startsWith(organisation) || known.has(burn.site)) return [];
    const site = burn.site.slice(organisation.length);
    return maySee(viewer, site) ? [{ site, burn }] : [];
  });
}
