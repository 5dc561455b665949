// Three workers and two answering processes over one PostgreSQL. One of each is killed in the middle of the first pulls.

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { afterAll, describe, expect, it } from 'vitest';
import { startStandIn } from '#demo/stand-in.ts';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { postgresPrograms } from '../postgres/server.ts';
import { DEMO_YAML } from './running.ts';

const MAIN = fileURLToPath(new URL('../../src/main.ts', import.meta.url));
const noPostgres = postgresPrograms() === null;
/** It takes a minute and more, by the time after which a worker counts as dead, and longer beside other tests. */
const isAsked = Boolean(process.env['PITWARD_LONG']);
if (noPostgres || !isAsked)
  console.log('The test of many processes needs PostgreSQL and PITWARD_LONG=1: skipped.');

const closing: (() => Promise<unknown> | undefined)[] = [];
afterAll(async () => {
  for (const close of closing.reverse()) await close();
});

/** The stand-in behind a door that counts requests by path, and that can be held shut for grids. */
async function startDoor() {
  const standIn = await startStandIn({ nowMs: Date.now });
  const counts = new Map<string, number>();
  const held = Promise.withResolvers<void>();
  const server = createServer(async (request, response) => {
    const path = request.url ?? '/';
    counts.set(path, (counts.get(path) ?? 0) + 1);
    if (path.startsWith('/gridpoints/')) await held.promise;
    const answer = await fetch(`${standIn.baseUrl}${path}`);
    response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? '' });
    response.end(Buffer.from(await answer.arrayBuffer()));
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  closing.push(async () => {
    server.closeAllConnections();
    server.close();
    await standIn.close();
  });
  return {
    counts,
    open: held.resolve,
    baseUrl: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
  };
}

function start(words: readonly string[], env: Record<string, string>): ChildProcess {
  const child = spawn(process.execPath, [MAIN, ...words], {
    env: { ...process.env, LOG_LEVEL: 'warn', ...env },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  closing.push(async () => child.kill('SIGKILL'));
  return child;
}

/** The address that a serving process says it has. */
const addressOf = (child: ChildProcess): Promise<string> =>
  new Promise((resolve) => {
    child.stdout?.on('data', (data: Buffer) => {
      const address = /http:\/\/[\d.]+:\d+/.exec(data.toString())?.[0];
      if (address) resolve(address);
    });
  });

async function until<T>(what: string, ask: () => Promise<T | null>, mostMs = 90_000): Promise<T> {
  const startMs = performance.now();
  for (;;) {
    const found = await ask().catch(() => null);
    if (found !== null) return found;
    if (performance.now() - startMs > mostMs) throw new Error(`waited too long for ${what}`);
    await setTimeout(100);
  }
}

describe.skipIf(noPostgres || !isAsked)('many processes', () => {
  it('one of each killed midway: nothing is lost, nothing is pulled twice but what was taken over', async () => {
    const door = await startDoor();
    const databaseUrl = await freshDatabase();
    const folder = mkdtempSync(join(tmpdir(), 'pitward-many-'));
    closing.push(async () => rmSync(folder, { recursive: true, force: true }));
    const config = join(folder, 'pitward.yaml');
    writeFileSync(config, DEMO_YAML.replace('http://127.0.0.1', door.baseUrl));
    const env = { DATABASE_URL: databaseUrl };
    const workers = [1, 2, 3].map(() => start(['work', '--config', config], env));
    const answering = [1, 2].map(() =>
      start(['serve', '--answers-only', '--port', '0', '--config', config], env),
    );
    const db = new pg.Pool({ connectionString: databaseUrl, max: 2 });
    closing.push(() => db.end());
    const addresses = await Promise.all(answering.map(addressOf));

    // All three cells are under way, and the door is shut: whoever has one of them is killed.
    const claims = await until('three pulls under way', async () => {
      const { rows } = await db.query<{ work: string; worker: string }>(
        `select work, worker from claims where work like 'pull %' and done_at_ms is null order by work`,
      );
      return rows.length === 3 ? rows : null;
    });
    const victim = Number(claims[0]?.worker.split('-')[0]);
    const lost = claims.filter(({ worker }) => worker.startsWith(`${victim}-`)).map(({ work }) => work);
    const killed = workers.find(({ pid }) => pid === victim);
    expect(killed?.kill('SIGKILL')).toBe(true);
    answering[0]?.kill('SIGKILL');
    const killedMs = performance.now();
    door.open();

    const documents = await until('documents of all cells', async () => {
      const { rows } = await db.query<{ cell: string; document: string }>(
        'select cell, document from cells where document is not null order by cell',
      );
      return rows.length === 3 ? rows : null;
    });
    const takeoverS = (performance.now() - killedMs) / 1000;
    console.log(
      `${lost.length} turns of a killed worker were taken over and done within ${takeoverS.toFixed(1)} s`,
    );
    expect(takeoverS).toBeLessThan(60);
    for (const { cell } of documents) {
      const asked = door.counts.get(`/gridpoints/${cell.replace(' ', '/')}`) ?? 0;
      // The killed worker may have asked already, or not yet.
      expect(asked).toBeGreaterThanOrEqual(1);
      expect(asked).toBeLessThanOrEqual(lost.includes(`pull ${cell}`) ? 2 : 1);
    }

    // The process that is left answers, and from what the store has now.
    for (const site of ['north-block', 'creek-block', 'ridge-block']) {
      const answer = await until(`an answer about ${site}`, async () => {
        const response = await fetch(`${addresses[1]}/v1/sites/${site}/plan?day=tomorrow`);
        const body = (await response.json()) as { madeFrom: { document: string } | null };
        return response.status === 200 && body.madeFrom ? body.madeFrom : null;
      });
      expect(documents.map((d) => d.document)).toContain(answer.document);
    }
    const { rows: plans } = await db.query('select distinct site from plans');
    expect(plans).toHaveLength(3);
    expect((await fetch(`${addresses[1]}/readyz`)).status).toBe(200);

    // Told to end, everything ends by itself.
    const left = [...workers, ...answering].filter((c) => c.exitCode === null && c.signalCode === null);
    const codes = left.map(
      (child) => new Promise((resolve) => child.once('exit', (code, signal) => resolve(code ?? signal))),
    );
    for (const child of left) child.kill('SIGTERM');
    expect(await Promise.all(codes)).toEqual(left.map(() => 0));
  }, 180_000);
});
