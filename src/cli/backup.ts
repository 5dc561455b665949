// pitward backup: the whole store in one file, while the service goes on.

import { ServiceError } from '#errors.ts';
import type { BackupSummary } from '#store/store.ts';
import { type Arguments, usage } from './arguments.ts';
import { isStoreThere } from './is-store-there.ts';
import { storeAddress } from './store-address.ts';
import { EXIT, type Terminal } from './terminal.ts';

export async function backup(args: Arguments, terminal: Terminal): Promise<number> {
  const [file, ...more] = args.words;
  if (file === undefined || more.length > 0) throw usage('backup takes one file to write');
  const address = storeAddress(args, terminal);
  // Opening would make an empty one.
  if ('sqliteFile' in address && !isStoreThere(address)) {
    throw new ServiceError('store_unavailable', `there is no store ${address.sqliteFile} yet`);
  }
  // Other commands start without the databases' programs.
  const { openStore } = await import('#store/open-store.ts');
  const store = await openStore({ ...address, shared: true }, { nowMs: terminal.nowMs, asFound: true });
  try {
    terminal.out(`${file}: ${rowsIn(await store.backup(file))}`);
    return EXIT.done;
  } finally {
    await store.close();
  }
}

export function rowsIn({ madeAtMs, rows }: BackupSummary): string {
  const total = Object.values(rows).reduce((sum, count) => sum + count, 0);
  const some = `${rows['plans'] ?? 0} plans, ${rows['documents'] ?? 0} documents`;
  return `${total} rows (${some}), as of ${Temporal.Instant.fromEpochMilliseconds(madeAtMs)}`;
}
