// PostgreSQL killed under a store that goes on writing: what was acknowledged is there, and the same store works again.

import { EventEmitter, once } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import pg from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openStore } from '#store/open-store.ts';
import type { Store } from '#store/store.ts';
import { type PostgresServer, startPostgres } from '../postgres/server.ts';
import { batchOf, keptIn } from './batch-of.ts';
import { NOON_MS, noPostgres } from './on-each-store.ts';
import { seeded } from './seeded.ts';

describe.skipIf(noPostgres)('PostgreSQL killed while a store writes', () => {
  let server: PostgresServer;
  let store: Store;

  beforeAll(async () => {
    server = await startPostgres();
    store = await openStore(
      { databaseUrl: server.url('postgres'), connections: 4 },
      { nowMs: () => NOON_MS },
    );
  });
  afterAll(async () => {
    await store.close();
    await server.remove();
  });

  /** Processes of the server: those that serve the store, or all of them. */
  async function processes(which: 'serving' | 'all'): Promise<number[]> {
    const client = new pg.Client({ connectionString: server.url('postgres') });
    client.on('error', () => undefined);
    await client.connect();
    const { rows } = await client.query<{ pid: number; name: string }>(
      'select pid, application_name as name from pg_stat_activity where pid <> pg_backend_pid()',
    );
    await client.end();
    return rows.filter((row) => which === 'all' || row.name === 'pitward').map((row) => row.pid);
  }

  const kill = (pid: number): void => {
    try {
      process.kill(pid, 'SIGKILL');
    } catch (fault) {
      if ((fault as NodeJS.ErrnoException).code !== 'ESRCH') throw fault;
    }
  };

  /** One process that serves the store: the server then throws all others out and recovers by itself. */
  async function killOneServing(random: () => number): Promise<void> {
    const serving = await processes('serving');
    kill(serving[Math.floor(random() * serving.length)] ?? 0);
  }

  async function killAll(): Promise<void> {
    const others = await processes('all');
    for (const pid of [server.pid(), ...others]) kill(pid);
    await server.ended();
    await server.start();
  }

  it('loses nothing that was acknowledged, and works again without being opened again', async () => {
    const random = seeded();
    const told: string[] = [];
    const progress = new EventEmitter();
    const causes = new Set<unknown>();
    let over = false;
    const write = async (lane: number): Promise<void> => {
      for (let i = 0; !over; i += 1) {
        const id = `${lane}-${i}`;
        try {
          await store.commit(batchOf(id));
          told.push(id);
          progress.emit('kept');
        } catch (fault) {
          expect(fault).toMatchObject({ code: 'store_unavailable', retryable: true });
          causes.add((fault as { facts: { cause: string } }).facts.cause);
          // As anybody would who tries again.
          await setTimeout(20);
        }
      }
    };
    /** Resolves once `count` more batches were acknowledged. */
    const acknowledged = async (count: number): Promise<void> => {
      for (const enough = told.length + count; told.length < enough; ) await once(progress, 'kept');
    };
    const writing = Promise.all([0, 1, 2].map(write));
    for (let round = 0; round < 6; round += 1) {
      await acknowledged(3 + Math.floor(random() * 10));
      await (round % 2 === 0 ? killOneServing(random) : killAll());
    }
    await acknowledged(5);
    over = true;
    await writing;
    const { whole, broken, positions } = await keptIn(store);
    expect(told.filter((id) => !whole.has(id))).toEqual([]);
    expect(broken).toEqual([]);
    expect(positions).toEqual(Array.from({ length: whole.size * 2 }, (_, n) => n + 1));
    expect([...causes]).toEqual(['connection-lost']);
    expect(store.health()).toEqual({ ok: true });
  }, 90_000);
});
