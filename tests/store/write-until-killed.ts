// A process that writes batches to one or more stores without end and says of each, once it is kept: `0 <id>` for the
// first store, `1 <id>` for the second. To be killed.

import { writeSync } from 'node:fs';
import { openStore, type StoreAddress } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { batchOf } from './batch-of.ts';

const [run = '', ...addresses] = process.argv.slice(2);

async function write(store: Store, number: number, lane: number): Promise<void> {
  for (let i = 0; ; i += 1) {
    const id = `${run}-${lane}-${i}`;
    await store.commit(batchOf(id));
    writeSync(1, `${number} ${id}\n`);
  }
}

await Promise.all(
  addresses.map(async (address, number) => {
    const store = await openStore(JSON.parse(address) as StoreAddress, { nowMs: () => 0 });
    // Several at once, so that there is always one in the middle.
    await Promise.all([0, 1].map((lane) => write(store, number, lane)));
  }),
);
