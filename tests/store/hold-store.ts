// A process that serves from a store until it is killed.

import { openStore } from '#store/open-store.ts';
import { cellOf } from '../builders/store.ts';

const store = await openStore({ sqliteFile: process.argv[2] ?? '' }, { nowMs: () => 0 });
await store.commit({ cells: [cellOf('A 1,1')] });
process.stdout.write('open\n');
setInterval(() => undefined, 1000);
