// The store that the configuration or the environment names, for commands that need it.

import { resolve } from 'node:path';
import type { Config } from '#config/schema.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import type { Terminal } from './terminal.ts';

export interface Kept {
  readonly store: Store;
  /** Null: SQLite in a file. */
  readonly databaseUrl: string | null;
}

/**
 * `shared`: for short work beside a serving process. DATABASE_URL names a PostgreSQL; else the file that the configuration names. Throws
 * ServiceError `store_…`.
 */
export async function openKept(
  config: Pick<Config, 'store'>,
  terminal: Terminal,
  { shared = false }: { readonly shared?: boolean } = {},
): Promise<Kept> {
  const databaseUrl = terminal.environment['DATABASE_URL'] || null;
  const address = databaseUrl ? { databaseUrl } : { sqliteFile: resolve(config.store.file), shared };
  const onBroken = (fault: Error) => terminal.err(`A connection to the store broke: ${fault.message}`);
  return { store: await openStore(address, { nowMs: terminal.nowMs, onBroken }), databaseUrl };
}
