// Inside, a site is named by `organisation/id`: ids are unique within an organisation only.

import { ServiceError } from '#errors.ts';
import { maySee, type Viewer } from './viewer.ts';

/** Neither part may hold the slash that parts them: `a/b` with `c` must never read as `a` with `b/c`. */
const PART = /^[a-z0-9][a-z0-9-]{0,62}$/;

export const siteKeyOf = (organisation: string, id: string): string => `${organisation}/${id}`;

/** Null where the viewer may not see it or it cannot be one: both are as if it were not there. */
export function siteKeyFor(viewer: Viewer, id: string): string | null {
  return PART.test(id) && maySee(viewer, id) ? siteKeyOf(viewer.organisation, id) : null;
}

/** Throws ServiceError `unknown_site`. */
export function siteKeyOrThrow(viewer: Viewer, id: string): string {
  const key = siteKeyFor(viewer, id);
  if (key === null) throw unknownSite(id);
  return key;
}

/** The same words for every site that one may not know of. */
export const unknownSite = (id: string): ServiceError => new ServiceError('unknown_site', `no site "${id}"`);
