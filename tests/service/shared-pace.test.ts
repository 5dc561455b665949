// Two processes over one PostgreSQL, each with stores and clients of its own, ask the source no faster than one.

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

it.skipIf(noPostgres)('the turns that one process has used up are missing to the other', async () => {
  const standIn = await startStandIn({ nowMs: () => NOON_MS + 120_000 });
  closing.push(() => standIn.close());
  const databaseUrl = await freshDatabase();
  const { config, written } = readConfig(DEMO_YAML, 'demo.yaml');
  const sources = { nws: { ...config.sources.nws, baseUrl: standIn.baseUrl } };
  const start = async (at: number) => {
    const nowMs = () => at;
    const sleptMs: number[] = [];
    const store = await openStore({ databaseUrl, connections: 3 }, { nowMs });
    closing.push(() => store.close());
    const service = await createService({
      store,
      // Turns are taken in the process; what is tried here is the pace.
      databaseUrl: null,
      takesTurns: true,
      config: { ...config, sources },
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
    return { service, sleptMs };
  };
  const startMs = performance.now();
  const first = await start(NOON_MS);
  await first.service.keeper.pullAll();
  // Later, or the turns would be those that are done.
  const second = await start(NOON_MS + 120_000);
  await second.service.keeper.pullAll();
  const tookMs = performance.now() - startMs;
  // The burst is six. Nobody sleeps in truth, so that every wait is as long as the turns given out before it.
  const asked = first.sleptMs.length + 6;
  expect(asked).toBeGreaterThan(12);
  expect(second.sleptMs.length).toBeGreaterThan(3);
  expect(Math.min(...second.sleptMs)).toBeGreaterThan((asked - 6) * 1000 - tookMs);
  expect(Math.max(...second.sleptMs)).toBeGreaterThan(Math.max(...first.sleptMs));
});
