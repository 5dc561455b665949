// The store of a service under test where a file or a database keeps it, so that another service can go on from there.

import type { inMemory } from '#service/in-memory.ts';
import { openStore } from '#store/open-store.ts';

type Address = Parameters<typeof openStore>[0];

export const keptIn =
  (address: Address) =>
  async (nowMs: () => number): ReturnType<typeof inMemory> => ({
    store: await openStore(address, { nowMs }),
    // Turns are taken by the tests themselves.
    databaseUrl: null,
    takesTurns: true,
  });
