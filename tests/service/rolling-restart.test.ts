// Two answering processes started anew one after the other, while clients go on asking: every answer is right, and what is
// not answered was refused before anybody had begun with it.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { afterAll, describe, expect, it } from 'vitest';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { noPostgres } from '../store/on-each-store.ts';
import { type Door, startDoor } from './door.ts';
import { type Answered, startClients } from './failover-clients.ts';
import { endAll, type Started, start, until } from './processes.ts';
import { DEMO_YAML } from './running.ts';
import { wrongAnswers } from './watch-answers.ts';

const SITE = 'north-block';
const CELL = 'XXV 41,77';
const HOLD_AFTER_MIN = 14 * 60;
/** No wind is little enough. */
const NEVER = [{ element: 'windSpeed', atMost: { hold: '0 mph' }, source: 'county' }];
/** Long enough to be seen by whoever looks twenty times a second. */
const NOTICE_MS = 1500;

const closing: (() => unknown)[] = [];
afterAll(async () => {
  endAll();
  for (const close of closing.reverse()) await close();
});

interface World {
  readonly door: Door;
  serve(port: number, noticeMs: number): Started;
  documents(): Promise<Set<string>>;
}

async function makeWorld(): Promise<World> {
  const door = await startDoor(() => null);
  closing.push(door.close);
  door.open();
  const databaseUrl = await freshDatabase();
  const folder = mkdtempSync(join(tmpdir(), 'pitward-rolling-'));
  closing.push(() => rmSync(folder, { recursive: true, force: true }));
  const fileOf = (noticeMs: number): string => {
    const file = join(folder, `notice-${noticeMs}.yaml`);
    const source = `${door.baseUrl}\n    everyMin: 60\n    nearShiftMin: 60`;
    writeFileSync(
      file,
      `${DEMO_YAML.replace('http://127.0.0.1', source)}\nlisten: { noticeMs: ${noticeMs} }\n`,
    );
    return file;
  };
  const env = { DATABASE_URL: databaseUrl };
  start(['work', '--config', fileOf(0)], env);
  const db = new pg.Pool({ connectionString: databaseUrl, max: 1 });
  closing.push(() => db.end());
  return {
    door,
    serve: (port, noticeMs) =>
      start(['serve', '--answers-only', '--port', String(port), '--config', fileOf(noticeMs)], env),
    async documents() {
      const { rows } = await db.query(`select hash from documents where kind = 'gridpoint'`);
      return new Set(rows.map(({ hash }) => hash));
    },
  };
}

const readyOf = async (address: string): Promise<string> => {
  const response = await fetch(`${address}/readyz`, { headers: { connection: 'close' } });
  const { reason } = (await response.json()) as { reason?: { code: string } };
  return reason?.code ?? String(response.status);
};

const becomesReady = (address: string): Promise<true> =>
  until(`${address} to be ready`, async () => ((await readyOf(address)) === '200' ? true : null));

/** Allows no more go; resolves with the moment at which that was acknowledged. */
async function forbid(address: string): Promise<number> {
  const path = `${address}/v1/limit-sets/valley`;
  // A busy machine may say that it has too much to do.
  return await until('the change to be taken', async () => {
    const etag = (await fetch(path)).headers.get('etag') ?? '';
    const headers = { 'content-type': 'application/json', 'if-match': etag, connection: 'close' };
    const { status } = await fetch(path, { method: 'PUT', headers, body: JSON.stringify(NEVER) });
    return status === 200 ? Date.now() : null;
  });
}

const portOf = (address: string): number => Number(new URL(address).port);

/** Ends a process and starts one in its place; resolves with its address when it is ready. */
async function replace(world: World, old: Started, noticeMs: number): Promise<string> {
  const address = await old.address();
  const ended = old.end('SIGTERM');
  if (noticeMs > 0) {
    await until('it to say that it ends', async () => ((await readyOf(address)) === 'ending' ? true : null));
    // And to answer all the while, on a new connection too.
    expect((await fetch(`${address}/v1/sites`)).status).toBe(200);
  }
  expect(await ended).toBe(0);
  const next = await world.serve(portOf(address), noticeMs).address();
  await becomesReady(next);
  return next;
}

describe.skipIf(noPostgres)('a rolling restart', () => {
  it('gives no wrong answer, and none that failed but for what was refused at once', async () => {
    const world = await makeWorld();
    const first = world.serve(0, 0);
    const second = world.serve(0, NOTICE_MS);
    const addresses: [string, string] = [await first.address(), await second.address()];
    await Promise.all(addresses.map(becomesReady));
    const clients = startClients(addresses, SITE, 4);
    // There is a go to be lost.
    await until('a go of both', () =>
      from(
        clients.told.filter(({ isGo }) => isGo),
        addresses,
      ).every((n) => n > 5)
        ? true
        : null,
    );
    const beginMs = performance.now();
    addresses[0] = await replace(world, first, 0);
    const forbiddenMs = await forbid(addresses[0]);
    const atSecond = clients.told.length;
    addresses[1] = await replace(world, second, NOTICE_MS);
    const replaced = clients.told.length;
    await until('answers of both new ones', () =>
      from(clients.told.slice(replaced), addresses).every((n) => n > 5) ? true : null,
    );
    await clients.stop();

    expect(clients.failures).toEqual([]);
    const made = await world.documents();
    const truth = { holdAfterMin: HOLD_AFTER_MIN, madeMs: () => world.door.madeMs.get(CELL) ?? Number.NaN };
    expect(wrongAnswers(clients.told, { ...truth, documents: made })).toEqual([]);
    // It was lost at once by whoever had taken the change or began after it.
    const late = clients.told
      .slice(atSecond)
      .filter(({ address, askedMs }) => askedMs >= forbiddenMs && address === addresses[0]);
    expect(late.length).toBeGreaterThan(5);
    expect([...late, ...clients.told.slice(replaced)].filter(({ isGo }) => isGo)).toEqual([]);
    // Whoever was asked meanwhile had it from the other.
    expect(clients.refused()).toBeGreaterThan(0);
    console.log(
      `two processes replaced within ${((performance.now() - beginMs) / 1000).toFixed(1)} s: ${clients.told.length} answers, ${clients.refused()} connections refused, ${clients.later()} told to ask later`,
    );
  }, 180_000);
});

const from = (told: readonly Answered[], addresses: readonly string[]): number[] =>
  addresses.map((address) => told.filter((one) => one.address === address).length);
