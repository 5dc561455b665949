// The records of the watch over either database.

import type { DatabaseAccess } from '#store/access.ts';
import { createDeliver } from './deliver.ts';
import { createWatchFigures } from './figures.ts';
import { createBurnReads } from './read-burns.ts';
import { createHistoryReads } from './read-history.ts';
import { createListReads } from './read-lists.ts';
import { createMessageReads } from './read-messages.ts';
import { createWatchReads } from './read-watch.ts';
import { createReceipts } from './receipts.ts';
import type { WatchRecords } from './records.ts';
import { secretIn } from './secret.ts';
import { createWatchCommit } from './write-watch.ts';

export const createWatch = (access: DatabaseAccess): WatchRecords => ({
  commit: createWatchCommit(access),
  ...createWatchReads(access),
  ...createBurnReads(access),
  ...createMessageReads(access),
  ...createDeliver(access),
  ...createHistoryReads(access),
  ...createListReads(access),
  ...createReceipts(access),
  figures: createWatchFigures(access),
  secret: secretIn(access),
});
