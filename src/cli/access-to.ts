// Who may ask: everybody on this machine, or whoever has a key where others can reach the service.

import { needsKeys } from '#config/listen.ts';
import type { Config } from '#config/schema.ts';
import { messageOf, ServiceError } from '#errors.ts';
import { anyLive } from '#publish/access/key-life.ts';
import { createKeyRing } from '#publish/access/key-ring.ts';
import { createKeyUses } from '#publish/access/key-uses.ts';
import type { ServiceOptions } from '#service/service.ts';
import type { Store } from '#store/store.ts';

export interface AccessTo extends Required<Pick<ServiceOptions, 'access' | 'server'>> {
  /** Writes when keys were last used, where that is not written yet. */
  flush(): Promise<void>;
}

export function accessTo(
  config: Config,
  store: Store,
  log: { warn(facts: object, message: string): void },
): AccessTo {
  const { names, rateLimit: rateLimits, trustProxy } = config.listen;
  const server = { rateLimits, trustProxy };
  if (!needsKeys(config.listen)) {
    return { server, access: () => ({ kind: 'open', hosts: names }), flush: () => Promise.resolve() };
  }
  const uses = createKeyUses({
    write: (lastUsed) => store.keys.used(lastUsed),
    failed: (fault) => log.warn({ message: messageOf(fault) }, 'when keys were last used could not be kept'),
  });
  return {
    server,
    access: (mirror) => ({ kind: 'keys', ring: createKeyRing(mirror.keys), used: uses.note }),
    flush: uses.flush,
  };
}

/** Throws ServiceError `usage` where others can reach the service and nobody could have a key. */
export async function refuseWithoutKeys(config: Config, store: Store, nowMs: number): Promise<void> {
  if (!needsKeys(config.listen) || anyLive(await store.keys.all(), nowMs)) return;
  throw new ServiceError(
    'usage',
    `${config.listen.host} can be reached by others, and there is no key yet: make one with "pitward key new --name office --scopes admin", or listen on 127.0.0.1`,
  );
}
