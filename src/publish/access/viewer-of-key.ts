// A key → who asks with it.

import type { Viewer } from '#publish/viewer.ts';
import type { ApiKey } from '#store/api-key.ts';

const made = new WeakMap<ApiKey, Viewer>();

/** Made once for each key: every request of a busy client asks for the same. */
export function viewerOfKey(key: ApiKey): Viewer {
  const known = made.get(key);
  if (known) return known;
  const { organisation, sites, scopes, name, prefix } = key;
  const viewer = { organisation, sites, scopes: new Set(scopes), name, key: prefix };
  made.set(key, viewer);
  return viewer;
}
