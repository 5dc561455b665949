// Every test of the store runs on both databases.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe } from 'vitest';
import { openStore, type StoreAddress, type StoreExtras } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { emptyDatabase, freshDatabase } from '../postgres/fresh-database.ts';
import { postgresPrograms } from '../postgres/server.ts';

export const NOON_MS = Date.UTC(2026, 2, 2, 12);

export interface Stores {
  readonly kind: Store['kind'];
  /** Where a new, empty store would be. */
  address(): Promise<StoreAddress>;
  /** Opens a store, a new one where no address is given; closed after the test. */
  open(address?: StoreAddress, extras?: Partial<StoreExtras>): Promise<Store>;
}

export const noPostgres = postgresPrograms() === null;
if (noPostgres) console.log('No PostgreSQL server here: the tests of the store on it are skipped.');

export function onEachStore(title: string, define: (stores: Stores) => void): void {
  for (const kind of ['sqlite', 'postgres'] as const) {
    describe.skipIf(kind === 'postgres' && noPostgres)(`${title}, ${kind}`, () => define(storesOf(kind)));
  }
}

export function onPostgres(title: string, define: (stores: Stores) => void): void {
  describe.skipIf(noPostgres)(title, () => define(storesOf('postgres')));
}

export function onSqlite(title: string, define: (stores: Stores) => void): void {
  describe(title, () => define(storesOf('sqlite')));
}

/** Databases of this file that were used and emptied again. */
const used: string[] = [];

export function storesOf(kind: Store['kind']): Stores {
  const opened: { store: Store; reusable: string | null }[] = [];
  const folders: string[] = [];
  afterEach(async () => {
    for (const { store, reusable } of opened.splice(0)) {
      await store.close();
      if (reusable === null) continue;
      await emptyDatabase(reusable);
      used.push(reusable);
    }
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
  const address = async (): Promise<StoreAddress> => {
    if (kind === 'postgres') return { databaseUrl: await freshDatabase(), connections: 5 };
    const folder = mkdtempSync(join(tmpdir(), 'pitward-store-'));
    folders.push(folder);
    return { sqliteFile: join(folder, 'pitward.db') };
  };
  const again = (): StoreAddress | null => {
    const databaseUrl = kind === 'postgres' ? used.pop() : undefined;
    return databaseUrl === undefined ? null : { databaseUrl, connections: 5 };
  };
  return {
    kind,
    address,
    async open(given, extras = {}) {
      const where = given ?? again() ?? (await address());
      const store = await openStore(where, { nowMs: () => NOON_MS, ...extras });
      opened.push({ store, reusable: !given && 'databaseUrl' in where ? where.databaseUrl : null });
      return store;
    },
  };
}
