// What every process asks of the store every second, at the size of the nation and at ten times that of its sites.

import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { addressOf, type BenchStore } from './each-store.ts';
import { line, note } from './measure.ts';
import { NATION, type NationSize } from './nation.ts';

const SIZES: readonly NationSize[] = [NATION, { siteCount: 50_000, cellCount: 20_000 }];
const CALLS = 15;

export async function benchMarks({ kind, fresh }: BenchStore): Promise<void> {
  const store = await openStore(addressOf(await fresh()), { nowMs: Date.now });
  for (const size of SIZES) {
    note(`${kind}: marks of ${size.siteCount} places`);
    await fill(store, size);
    await store.marks();
    const cpu = process.cpuUsage();
    for (let i = 0; i < CALLS; i += 1) await store.marks();
    const { user, system } = process.cpuUsage(cpu);
    line(
      `    ${kind}, marks of ${size.cellCount} cells and ${size.siteCount} places, asked by every process every second: ${((user + system) / 1000 / CALLS).toFixed(0)} ms of its processor`,
    );
  }
  await store.close();
}

const fill = (store: Store, { siteCount, cellCount }: NationSize): Promise<void> =>
  store.commit({
    cells: Array.from({ length: cellCount }, (_, i) => ({
      cell: `XAA ${i},0`,
      document: null,
      receivedAtMs: null,
      confirmedAtMs: null,
      issuedAtMs: null,
      etag: null,
      lastModified: null,
      fault: null,
      failures: 0,
      cycle: 0,
      triedAtMs: 0,
    })),
    places: Array.from({ length: siteCount }, (_, i) => ({
      place: `${i},0`,
      cell: `XAA ${i % cellCount},0`,
    })),
  });
