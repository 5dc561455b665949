// What can befall the store of a running service, loops going on: /readyz says what it is, answers are refused once they
// may no longer be stood for, and all is well again without a restart.

import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import { afterEach, describe, expect, it } from 'vitest';
import type { StoreAddress } from '#store/open-store.ts';
import { freshDatabase } from '../postgres/fresh-database.ts';
import { noPostgres } from '../store/on-each-store.ts';
import { startProxy } from '../store/proxy.ts';
import { type RunningOn, startRunningOn } from './running-on.ts';

const NOW = '2026-03-03T01:10:00Z';
const QUICK = { connectMs: 1000, statementMs: 1000, lockMs: 250 };

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function run(address: StoreAddress, timeouts: object = QUICK): Promise<RunningOn> {
  const running = await startRunningOn(NOW, address, timeouts);
  closing.push(running.close);
  expect([await running.ready(), await running.plan()]).toEqual(['200', '200']);
  return running;
}

function folder(): string {
  const made = mkdtempSync(join(tmpdir(), 'pitward-store-faults-'));
  closing.push(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

/** Whether a file can be made one that nobody may write, open or not: what a disk does that has turned read-only. */
function canForbid(): boolean {
  const file = join(folder(), 'tried');
  writeFileSync(file, '');
  const done = spawnSync('chattr', ['+i', file]).status === 0;
  if (done) execFileSync('chattr', ['-i', file]);
  return done;
}

describe('a running service on SQLite', { timeout: 120_000 }, () => {
  it('whose file another program holds says so, and is well once it is let go', async () => {
    const sqliteFile = join(folder(), 'pitward.db');
    const { becomes, plan, clock } = await run({ sqliteFile });
    const other = new DatabaseSync(sqliteFile);
    closing.push(() => other.close());
    other.exec('begin immediate');
    await becomes('503 store-locked');
    expect(await plan()).toBe('200');
    clock.nowMs += 301_000;
    expect(await plan()).toBe('503 store_unavailable');
    other.exec('rollback');
    await becomes('200');
    expect(await plan()).toBe('200');
  });

  it.skipIf(!canForbid())(
    'whose disk has turned read-only says so, and is well once it may write',
    async () => {
      const sqliteFile = join(folder(), 'pitward.db');
      const { becomes, plan, clock, service } = await run({ sqliteFile });
      const files = [sqliteFile, `${sqliteFile}-wal`].filter((file) => existsSync(file));
      const allow = () => execFileSync('chattr', ['-i', ...files]);
      execFileSync('chattr', ['+i', ...files]);
      closing.push(allow);
      await service.keeper.pullAll();
      await becomes('503 store-read-only');
      expect(await plan()).toBe('200');
      clock.nowMs += 301_000;
      expect(await plan()).toBe('503 store_unavailable');
      allow();
      await becomes('200');
      expect(await plan()).toBe('200');
    },
  );
});

describe.skipIf(noPostgres)('a running service on PostgreSQL', { timeout: 120_000 }, () => {
  async function on(url: string): Promise<pg.Client> {
    const client = new pg.Client({ connectionString: url });
    client.on('error', () => undefined);
    await client.connect();
    closing.push(() => client.end());
    return client;
  }

  it('whose network is cut says so, gives no answer after a minute, and is well once it is mended', async () => {
    const url = new URL(await freshDatabase());
    const network = await startProxy(Number(url.port));
    closing.push(network.close);
    url.port = String(network.port);
    const { becomes, plan, steady } = await run({ databaseUrl: url.href, connections: 4 });
    network.cut();
    await becomes('503 store-connection-lost');
    expect(await plan()).toBe('200');
    steady.nowMs += 60_001;
    expect(await plan()).toBe('503 store_unavailable');
    network.mend();
    await becomes('200');
    expect(await plan()).toBe('200');
  });

  it('that answers too slowly says so, gives no answer after a minute, and is well once it is quick again', async () => {
    const databaseUrl = await freshDatabase();
    const slow = { ...QUICK, lockMs: 60_000 };
    const { becomes, plan, steady } = await run({ databaseUrl, connections: 4 }, slow);
    const holder = await on(databaseUrl);
    await holder.query('begin; lock table cells in access exclusive mode');
    await becomes('503 store-too-slow');
    expect(await plan()).toBe('200');
    steady.nowMs += 60_001;
    expect(await plan()).toBe('503 store_unavailable');
    await holder.query('rollback');
    await becomes('200');
    expect(await plan()).toBe('200');
  });

  it('in which another holds what it must write says so, and is well once that is let go', async () => {
    const databaseUrl = await freshDatabase();
    const { becomes, plan, clock, service } = await run({ databaseUrl, connections: 4 });
    const holder = await on(databaseUrl);
    await holder.query('begin; update cells set failures = 9');
    clock.nowMs += 61_000;
    await service.keeper.pullAll();
    await becomes('503 store-locked');
    expect(await plan()).toBe('200');
    await holder.query('rollback');
    await becomes('200');
    await service.keeper.pullAll();
    expect(await plan()).toBe('200');
  });

  it('that has turned read-only says so, refuses answers after five minutes, and is well once it may write', async () => {
    const databaseUrl = await freshDatabase();
    const { becomes, plan, clock } = await run({ databaseUrl, connections: 4 });
    const name = new URL(databaseUrl).pathname.slice(1);
    // As a server says it that has become a standby: to every connection from now on.
    const turn = async (value: 'on' | 'off'): Promise<void> => {
      const client = await on(databaseUrl);
      await client.query('set default_transaction_read_only = off');
      await client.query(`alter database ${name} set default_transaction_read_only = ${value}`);
      await client.query(
        `select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'pitward' and datname = current_database()`,
      );
    };
    await turn('on');
    await becomes('503 store-read-only');
    expect(await plan()).toBe('200');
    clock.nowMs += 301_000;
    expect(await plan()).toBe('503 store_unavailable');
    await turn('off');
    await becomes('200');
    expect(await plan()).toBe('200');
  });
});
