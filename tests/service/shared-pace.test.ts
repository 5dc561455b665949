// Processes over one PostgreSQL, each with a store and a client of its own, ask the source no faster than one.

import { afterEach, expect, it } from 'vitest';
import { readConfig } from '#config/load.ts';
import { startStandIn } from '#demo/stand-in.ts';
import { createService } from '#service/service.ts';
import { openStore } from '#store/open-store.ts';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { postgresPrograms } from '../postgres/server.ts';
import { DEMO_YAML } from './running.ts';

const NOON_MS = Date.parse('2026-03-03T20:00:00Z');
const noPostgres = postgresPrograms() === null;
if (noPostgres) console.log('No PostgreSQL server here: the test of the shared pace is skipped.');

const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

it.skipIf(noPostgres)('the turns that another process has taken are missing to a service', async () => {
  const nowMs = () => NOON_MS;
  const standIn = await startStandIn({ nowMs });
  closing.push(() => standIn.close());
  const databaseUrl = await freshDatabase();
  const opened = async () => {
    const store = await openStore({ databaseUrl, connections: 3 }, { nowMs });
    closing.push(() => store.close());
    return store;
  };
  // As if it had taken all the turns of the next two minutes.
  await (await opened()).paces.next(new URL(standIn.baseUrl).host, { burst: 1, everyMs: 120_000 });
  const { config, written } = readConfig(DEMO_YAML, 'demo.yaml');
  const sleptMs: number[] = [];
  const service = await createService({
    store: await opened(),
    // Turns are taken in the process; what is tried here is the pace.
    databaseUrl: null,
    takesTurns: true,
    config: { ...config, sources: { nws: { ...config.sources.nws, baseUrl: standIn.baseUrl } } },
    written,
    file: 'demo.yaml',
    demo: true,
    ownSource: false,
    nowMs,
    logger: null,
    version: 'test',
    async sleep(ms) {
      sleptMs.push(ms);
    },
  });
  closing.push(() => service.close());
  await service.keeper.pullAll();
  // Three places, three cells, and the alerts of three points and five zones. Alone, six would have gone at once and the
  // others after seconds.
  expect(sleptMs.length).toBeGreaterThanOrEqual(14);
  expect(Math.min(...sleptMs)).toBeGreaterThan(20_000);
});
