// A service that asks for keys, and keys of all kinds to ask it with.

import { createKeyRing } from '#publish/access/key-ring.ts';
import { type KeyWish, mintKey } from '#publish/access/mint-key.ts';
import { type Others, type Running, startRunning } from './running.ts';

export interface Keyed extends Running {
  /** A key as it is shown once; `revokedAtMs` ends it. */
  mint(wish?: Partial<KeyWish & { revokedAtMs: number }>): Promise<string>;
}

/** Limits so high that no test is slowed by them. */
const UNLIMITED = { keyPerMin: 1_000_000, addressPerMin: 1_000_000, loopbackPerMin: 1_000_000 };

export async function startKeyed(
  nowText: string,
  { server, ...others }: Omit<Others, 'access'> = {},
): Promise<Keyed> {
  const running = await startRunning(nowText, undefined, true, {
    access: (mirror) => ({ kind: 'keys', ring: createKeyRing(mirror.keys), used: () => undefined }),
    server: { rateLimits: UNLIMITED, ...server },
    ...others,
  });
  const { store, service, clock } = running;
  return {
    ...running,
    async mint({ revokedAtMs, ...wish } = {}) {
      const { organisation } = service.desk;
      const defaults = {
        name: 'office',
        organisation,
        sites: null,
        scopes: ['read'],
        expiresAtMs: null,
      } as const;
      const { text, key } = mintKey({ ...defaults, ...wish }, clock.nowMs);
      const audit = { atMs: clock.nowMs, organisation, who: 'test', subject: key.prefix, detail: null };
      await store.keys.add(key, { ...audit, what: 'key-made' });
      if (revokedAtMs !== undefined)
        await store.keys.revoke(key.prefix, revokedAtMs, { ...audit, what: 'key-revoked' });
      await service.mirror.sync();
      return text;
    },
  };
}
