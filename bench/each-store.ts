// Both stores to measure on, in turn: SQLite in a file of a folder of its own, and PostgreSQL where the machine has one.

import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { type PostgresServer, postgresPrograms, startPostgres } from '../tests/postgres/server.ts';
import { line } from './measure.ts';

export interface BenchStore {
  readonly kind: 'SQLite' | 'PostgreSQL';
  /** A file, or an address that begins with `postgres:`: a new one with each call. */
  fresh(): Promise<string>;
}

/** Everything made is removed again. */
export async function eachStore(work: (store: BenchStore) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'pitward-bench-'));
  try {
    await work({ kind: 'SQLite', fresh: async () => join(folder, `${randomUUID()}.db`) });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  await withPostgres((server) =>
    work({
      kind: 'PostgreSQL',
      fresh: () => newDatabase(server, `bench_${randomUUID().replaceAll('-', '')}`),
    }),
  );
}

export async function withPostgres(work: (server: PostgresServer) => Promise<void>): Promise<void> {
  if (postgresPrograms() === null) {
    line('      PostgreSQL: skipped, there is none on this machine');
    return;
  }
  const server = await startPostgres();
  try {
    await work(server);
  } finally {
    await server.remove();
  }
}

export async function newDatabase(server: PostgresServer, name: string): Promise<string> {
  const client = new pg.Client({ connectionString: server.url('postgres') });
  await client.connect();
  await client.query(`create database ${name}`);
  await client.end();
  return server.url(name);
}

/** As the store takes it. */
export const addressOf = (address: string) =>
  address.startsWith('postgres:') ? { databaseUrl: address } : { sqliteFile: address };
