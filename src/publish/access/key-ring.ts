// Finds the key that was presented: one look-up by prefix, one digest, one comparison.

import type { ApiKey } from '#store/api-key.ts';
import { keyState } from './key-life.ts';
import { digestOf, prefixOf, sameDigest } from './key-text.ts';

export interface KeyRing {
  /** The key that the token is; null where it is unknown, has expired or was revoked. */
  find(token: string, nowMs: number): ApiKey | null;
}

interface Held {
  readonly key: ApiKey;
  readonly digest: Buffer;
}

/** `list` may give another list at any time: the ring is made anew when the list is another object. */
export function createKeyRing(list: () => readonly ApiKey[]): KeyRing {
  let source: readonly ApiKey[] | null = null;
  let byPrefix: ReadonlyMap<string, Held> = new Map();
  return {
    find(token, nowMs) {
      const keys = list();
      if (keys !== source) {
        byPrefix = new Map(keys.map((key) => [key.prefix, { key, digest: Buffer.from(key.digest, 'hex') }]));
        source = keys;
      }
      const prefix = prefixOf(token);
      const held = prefix === null ? undefined : byPrefix.get(prefix);
      if (!held || !sameDigest(digestOf(token), held.digest)) return null;
      return keyState(held.key, nowMs) === 'live' ? held.key : null;
    },
  };
}
