// The store of a command that needs it, opened.

import type { Config } from '#config/schema.ts';
import { ServiceError } from '#errors.ts';
import { withoutSecrets } from '#publish/access/without-secrets.ts';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import type { Arguments } from './arguments.ts';
import { isStoreThere } from './is-store-there.ts';
import { storeAddress } from './store-address.ts';
import type { Terminal } from './terminal.ts';

export interface Kept {
  readonly store: Store;
  /** Null: SQLite in a file. */
  readonly databaseUrl: string | null;
}

/**
 * `shared`: for short work beside a serving process. `asFound`: for work that only reads; makes no store and migrates none.
 * Throws ServiceError `store_…`.
 */
export async function openKept(
  args: Arguments,
  config: Pick<Config, 'store'>,
  terminal: Terminal,
  { shared = false, asFound = false }: { readonly shared?: boolean; readonly asFound?: boolean } = {},
): Promise<Kept> {
  const address = storeAddress(args, terminal, config);
  if (asFound && 'sqliteFile' in address && !isStoreThere(address))
    throw new ServiceError('store_unavailable', `there is no store ${address.sqliteFile} yet`);
  const onBroken = (fault: Error) =>
    terminal.err(`A connection to the store broke: ${withoutSecrets(fault.message)}`);
  const store = await openStore({ ...address, shared }, { nowMs: terminal.nowMs, onBroken, asFound });
  return { store, databaseUrl: 'databaseUrl' in address ? address.databaseUrl : null };
}
