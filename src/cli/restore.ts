// pitward restore: a new store from a backup.

import { type Arguments, usage } from './arguments.ts';
import { rowsIn } from './backup.ts';
import { storeAddress } from './store-address.ts';
import { EXIT, type Terminal } from './terminal.ts';

export async function restore(args: Arguments, terminal: Terminal): Promise<number> {
  const [file, ...more] = args.words;
  if (file === undefined || more.length > 0) throw usage('restore takes one file to read');
  // Other commands start without the databases' programs.
  const { openStore } = await import('#store/open-store.ts');
  const store = await openStore(storeAddress(args, terminal), { nowMs: terminal.nowMs });
  try {
    terminal.out(`Restored from ${file}: ${rowsIn(await store.restore(file))}`);
    return EXIT.done;
  } finally {
    await store.close();
  }
}
