// A store that lives and ends with the process: for the demonstration, which is to leave nothing behind.

import { openStore } from '#store/open-store.ts';
import type { ServiceOptions } from './service.ts';

export async function inMemory(
  nowMs: () => number,
): Promise<Pick<ServiceOptions, 'store' | 'databaseUrl' | 'takesTurns'>> {
  const store = await openStore({ sqliteFile: ':memory:' }, { nowMs });
  return { store, databaseUrl: null, takesTurns: true };
}
