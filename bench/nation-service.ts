// A process that serves the invented nation: pulls, plans and answers in one, over SQLite in a file or PostgreSQL. Each
// message asks for one full cycle and is answered when that is done.

import { readConfig } from '#config/load.ts';
import { every } from '#service/every.ts';
import { createService } from '#service/service.ts';
import { openStore } from '#store/open-store.ts';
import { addressOf } from './each-store.ts';
import { NATION, nationConfig } from './nation.ts';

const [baseUrl = '', address = '', sites = NATION.siteCount, cells = NATION.cellCount] =
  process.argv.slice(2);
const size = { siteCount: Number(sites), cellCount: Number(cells) };
const nowMs = Date.now;
const { config, written } = readConfig(nationConfig(size, baseUrl), 'nation.yaml');
const store = await openStore(addressOf(address), { nowMs });
const service = await createService({
  config,
  written,
  file: 'nation.yaml',
  store,
  // The queue of one process, on both stores: what a cycle costs is asked, not how it is shared out.
  databaseUrl: null,
  takesTurns: true,
  demo: false,
  ownSource: true,
  nowMs,
  logger: null,
  version: 'bench',
});
const url = await service.app.listen({ host: '127.0.0.1', port: 0 });

export interface CycleDone {
  readonly seconds: number;
  /** Seconds of processor time. */
  readonly busy: number;
  readonly rows: Readonly<Record<string, number>>;
  readonly bytes: number;
}

process.on('message', async () => {
  const start = performance.now();
  const cpu = process.cpuUsage();
  await service.keeper.pullAll();
  const seconds = (performance.now() - start) / 1000;
  const { user, system } = process.cpuUsage(cpu);
  const done: CycleDone = { seconds, busy: (user + system) / 1e6, ...(await store.care.sizes()) };
  process.send?.(done);
});
// As in earnest, the store is followed by the second; the clock begins no turns of its own.
every(1000, () => service.mirror.sync());
process.send?.(url);
process.on('SIGTERM', () => process.exit(0));
