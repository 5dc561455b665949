// Opens a store and writes to it, and says how that went.

import { openStore } from '#store/open-store.ts';

try {
  const store = await openStore({ sqliteFile: process.argv[2] ?? '' }, { nowMs: () => 0 });
  await store.care.probe(1);
  await store.close();
  process.stdout.write('well\n');
} catch (fault) {
  process.stdout.write(`${(fault as { facts?: { cause?: string } }).facts?.cause ?? String(fault)}\n`);
}
