// A process that serves the list of the invented nation in memory of one store, and answers each address that it is sent
// with what it took.

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
  databaseUrl: null,
  takesTurns: true,
  demo: false,
  ownSource: true,
  nowMs,
  logger: null,
  version: 'bench',
  server: { mostLoopDelayMs: Number.POSITIVE_INFINITY },
});
await service.keeper.pullAll();

export interface ListAsked {
  readonly ms: number;
  /** Of the processor. */
  readonly busyMs: number;
  readonly bytes: number;
  readonly rows: number;
}

process.on('message', async (url: string) => {
  const start = performance.now();
  const cpu = process.cpuUsage();
  const { statusCode, body } = await service.app.inject({ url });
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  if (statusCode !== 200) throw new Error(`${url}: ${statusCode}`);
  const isFile = url.startsWith('/sites.csv');
  const rows = isFile ? body.split('\r\n').length - 2 : body.split('<li><h2>').length - 1;
  const asked: ListAsked = { ms, busyMs: (user + system) / 1000, bytes: Buffer.byteLength(body), rows };
  process.send?.(asked);
});
// As in earnest, the store is followed by the second; the clock begins no turns of its own.
every(1000, () => service.mirror.sync());
process.send?.('ready');
process.on('SIGTERM', () => process.exit(0));
