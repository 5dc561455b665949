// (g) How long until the work of a killed worker is done by another: three real workers over one PostgreSQL, and a source
// that lets nobody have a grid until the worker is dead.

import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { startStandIn } from '#demo/stand-in.ts';
import type { PostgresServer } from '../tests/postgres/server.ts';
import { newDatabase, withPostgres } from './each-store.ts';
import { line, median, note } from './measure.ts';

const RUNS = 3;
const WORKERS = 3;
const MOST_MS = 180_000;
const MAIN = fileURLToPath(new URL('../src/main.mjs', import.meta.url));
const DEMO = fileURLToPath(new URL('../config/demo.yaml', import.meta.url));

export async function benchTakeover(): Promise<void> {
  line(
    `(g) a worker of ${WORKERS} killed (SIGKILL) while it pulls, until all that it had under way is done by others; ${RUNS} runs (goal: at most 60 s)`,
  );
  await withPostgres(async (server) => {
    const runs: Takeover[] = [];
    for (let i = 0; i < RUNS; i += 1) {
      note(`run ${i + 1} of ${RUNS}`);
      runs.push(await takeoverOnce(server, `takeover_${i}`));
    }
    const seconds = runs.map((run) => run.seconds);
    line(
      `      median ${median(seconds).toFixed(1)} s, longest ${Math.max(...seconds).toFixed(1)} s; pulls taken over: ${runs.map((run) => run.pulls).join(', ')}`,
    );
  });
}

interface Takeover {
  readonly seconds: number;
  readonly pulls: number;
}

async function takeoverOnce(server: PostgresServer, name: string): Promise<Takeover> {
  const door = await startDoor();
  const folder = mkdtempSync(join(tmpdir(), 'pitward-takeover-'));
  const databaseUrl = await newDatabase(server, name);
  const config = join(folder, 'pitward.yaml');
  writeFileSync(config, readFileSync(DEMO, 'utf8').replace('http://127.0.0.1', door.baseUrl));
  const workers = Array.from({ length: WORKERS }, () => startWorker(config, databaseUrl));
  const db = new pg.Pool({ connectionString: databaseUrl, max: 1 });
  try {
    const claims = await until(async () => {
      const { rows } = await db.query<{ work: string; worker: string }>(
        `select work, worker from claims where work like 'pull %' and cycle > 0 and done_at_ms is null`,
      );
      return rows.length === 3 ? rows : null;
    });
    const victim = claims[0]?.worker ?? '';
    const lost = claims.filter(({ worker }) => worker === victim).map(({ work }) => work);
    workers.find(({ pid }) => victim.startsWith(`${pid}-`))?.kill('SIGKILL');
    const killedMs = performance.now();
    door.open();
    await until(async () => {
      const { rows } = await db.query(
        'select 1 from claims where work = any($1) and cycle > 0 and worker <> $2 and done_at_ms is not null',
        [lost, victim],
      );
      return rows.length >= lost.length ? rows : null;
    });
    return { seconds: (performance.now() - killedMs) / 1000, pulls: lost.length };
  } finally {
    for (const worker of workers) worker.kill('SIGKILL');
    await db.end();
    await door.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function startWorker(config: string, databaseUrl: string): ChildProcess {
  return spawn(process.execPath, [MAIN, 'work', '--config', config], {
    env: { ...process.env, LOG_LEVEL: 'fatal', DATABASE_URL: databaseUrl },
    stdio: 'ignore',
  });
}

/** The stand-in of the demonstration behind a door that is shut for grids at first. */
async function startDoor() {
  const standIn = await startStandIn({ nowMs: Date.now });
  const { promise, resolve } = Promise.withResolvers<void>();
  const server = createServer(async (request, response) => {
    const path = request.url ?? '/';
    if (path.startsWith('/gridpoints/')) await promise;
    const answer = await fetch(`${standIn.baseUrl}${path}`);
    response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? '' });
    response.end(Buffer.from(await answer.arrayBuffer()));
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  return {
    baseUrl: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    open: resolve,
    async close() {
      server.closeAllConnections();
      server.close();
      await standIn.close();
    },
  };
}

async function until<T>(ask: () => Promise<T | null>): Promise<T> {
  const startMs = performance.now();
  for (;;) {
    // The tables may not be there yet.
    const found = await ask().catch(() => null);
    if (found !== null) return found;
    if (performance.now() - startMs > MOST_MS) throw new Error('waited too long for the workers');
    await setTimeout(100);
  }
}
