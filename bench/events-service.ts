// A process whose log of events is followed: adds events when it is told to, and says what memory it holds.

import { readConfig } from '#config/load.ts';
import { createKeyRing } from '#publish/access/key-ring.ts';
import { mintKey } from '#publish/access/mint-key.ts';
import { createService } from '#service/service.ts';
import { openStore } from '#store/open-store.ts';
import { addressOf } from './each-store.ts';
import { watchedConfig } from './watched-sites.ts';

const [address = '', keyCount = '', tickMs = ''] = process.argv.slice(2);
const nowMs = (): number => Date.now();
const nowhere = 'http://127.0.0.1:9';
const { config, written } = readConfig(watchedConfig(1, nowhere, nowhere), 'watched.yaml');
const { organisation } = config;
const store = await openStore(addressOf(address), { nowMs });
const keys: string[] = [];
for (let i = 0; i < Number(keyCount); i += 1) {
  const wish = { name: `${i}`, organisation, sites: null, scopes: ['read'] as const, expiresAtMs: null };
  const { text, key } = mintKey(wish, nowMs());
  const audit = { atMs: nowMs(), organisation, who: 'bench', what: 'key-made', subject: key.prefix };
  await store.keys.add(key, { ...audit, detail: null });
  keys.push(text);
}
const most = 1_000_000;
const service = await createService({
  ...{ config, written, file: 'watched.yaml', store, databaseUrl: null, takesTurns: true },
  ...{ demo: false, ownSource: true, nowMs, logger: null, version: 'bench' },
  access: (mirror) => ({ kind: 'keys', ring: createKeyRing(mirror.keys), used: () => undefined }),
  server: {
    mostLoopDelayMs: Number.POSITIVE_INFINITY,
    rateLimits: { keyPerMin: most, addressPerMin: most, loopbackPerMin: most },
  },
});
const url = await service.app.listen({ host: '127.0.0.1', port: 0 });
service.eventStreams.start();
setInterval(() => void service.eventStreams.tick(), Number(tickMs));
process.send?.({ url, keys });

process.on('message', async (asked: 'memory' | 'write') => {
  if (asked === 'memory') {
    globalThis.gc?.();
    const { rss, heapUsed } = process.memoryUsage();
    process.send?.({ rss, heapUsed, streams: service.eventStreams.count() });
    return;
  }
  const site = `${organisation}/site-0`;
  // The moment goes with the event: both processes read one clock.
  const atMs = performance.timeOrigin + performance.now();
  const data = { plan: String(atMs), cause: 'forecast', changes: [] };
  const rest = { organisation, site, kind: 'window-changed', subject: site, validUntilMs: null } as const;
  await store.commit({ events: [{ ...rest, atMs: nowMs(), data }] });
  process.send?.('written');
});
process.on('SIGTERM', () => process.exit(0));
