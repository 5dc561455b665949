// A process that writes to one or more stores without end, and says of each thing, once it is kept, which store it is in
// and what it is: `0 batch <id>`, `0 look <id>`, `0 claim <delivery as JSON>`, `0 settled <id>`. To be killed.

import { writeSync } from 'node:fs';
import { openStore, type StoreAddress } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { batchOf } from './batch-of.ts';
import { burnLookOf, SHORT_LEASE } from './burn-look-of.ts';

const [run = '', ...addresses] = process.argv.slice(2);

async function write(store: Store, number: number, lane: number): Promise<void> {
  const say = (what: string): unknown => writeSync(1, `${number} ${what}\n`);
  for (let i = 0; ; i += 1) {
    const id = `${run}-${lane}-${i}`;
    await store.commit(batchOf(id));
    say(`batch ${id}`);
    await store.watch.commit([{ ...burnLookOf(id), replaces: 0 }]);
    say(`look ${id}`);
    const nowMs = Date.now();
    const claimed = await store.watch.claimDeliveries({ ...SHORT_LEASE, worker: id, nowMs, most: 3 });
    for (const { id: delivery, token, leaseUntilMs } of claimed) {
      say(`claim ${JSON.stringify({ delivery, token, nowMs, leaseUntilMs })}`);
    }
    // The rest is left to whoever finds it after this one is dead.
    const [one] = claimed;
    if (one === undefined || i % 2 === 0) continue;
    const came = { atMs: Date.now(), outcome: 'sent' as const, detail: null, said: 'Pit 7' };
    const lost = await store.watch.settle([{ id: one.id, token: one.token, ...came }]);
    if (lost.length === 0) say(`settled ${one.id}`);
  }
}

await Promise.all(
  addresses.map(async (address, number) => {
    const store = await openStore(JSON.parse(address) as StoreAddress, { nowMs: () => 0 });
    // Several at once, so that there is always one in the middle.
    await Promise.all([0, 1].map((lane) => write(store, number, lane)));
  }),
);
