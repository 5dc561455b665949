// Whether a key may still be used, and since when not.

import type { ApiKey } from '#store/api-key.ts';

export type KeyState = 'live' | 'expired' | 'revoked';

/** A revocation dated ahead is an end set in advance: until then the key lives. */
export function keyState({ expiresAtMs, revokedAtMs }: ApiKey, nowMs: number): KeyState {
  if (revokedAtMs !== null && nowMs >= revokedAtMs) return 'revoked';
  return expiresAtMs !== null && nowMs >= expiresAtMs ? 'expired' : 'live';
}

export const anyLive = (keys: readonly ApiKey[], nowMs: number): boolean =>
  keys.some((key) => keyState(key, nowMs) === 'live');
