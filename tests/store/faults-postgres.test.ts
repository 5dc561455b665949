// What PostgreSQL can do to a store: each is told by its cause and in bounded time, and the same store works again.

import pg from 'pg';
import { afterEach, expect, it } from 'vitest';
import { openPostgres } from '#store/dialect/postgres.ts';
import type { Store } from '#store/store.ts';
import { cellOf, changeOf } from '../builders/store.ts';
import { freshDatabase, onDatabase } from '../postgres/fresh-database.ts';
import { NOON_MS, onPostgres } from './on-each-store.ts';
import { type NetworkProxy, startProxy } from './proxy.ts';

const TIMEOUTS = { connectMs: 400, statementMs: 400, lockMs: 250 };
/** Above every bound that a call may run into one after the other. */
const BOUND_MS = 5000;

const write = (store: Store) => store.commit({ cells: [cellOf('A 1,1')] });

/** Expects a call to fail with a cause, in time, and health to say so. */
async function expectFault(store: Store, call: () => Promise<unknown>, ...causes: string[]): Promise<void> {
  const startMs = performance.now();
  const fault = await call().then(
    () => null,
    (reason) => reason,
  );
  expect(performance.now() - startMs).toBeLessThan(BOUND_MS);
  expect(fault).toMatchObject({ code: 'store_unavailable', retryable: true });
  expect(causes).toContain(fault.facts.cause);
  // Where reading and writing fail for different reasons, the one that has lasted longest is told.
  const health = store.health();
  expect(health).toMatchObject({ ok: false, sinceMs: NOON_MS });
  expect(causes).toContain(health.ok ? null : health.cause);
}

async function expectWell(store: Store): Promise<void> {
  await write(store);
  await store.care.probe(1);
  expect((await store.forecasts.cells()).map((cell) => cell.cell)).toEqual(['A 1,1']);
  expect(store.health()).toEqual({ ok: true });
}

onPostgres('faults of PostgreSQL', ({ open }) => {
  let proxy: NetworkProxy | null = null;
  const holders: pg.Client[] = [];
  afterEach(async () => {
    for (const client of holders.splice(0)) await client.end();
    await proxy?.close();
    proxy = null;
  });

  async function opened(): Promise<{ store: Store; url: string }> {
    const url = await freshDatabase();
    const store = await open({ databaseUrl: url, connections: 2 }, { timeouts: TIMEOUTS });
    return { store, url };
  }
  async function behindProxy(): Promise<{ store: Store; proxy: NetworkProxy }> {
    const url = new URL(await freshDatabase());
    proxy = await startProxy(Number(url.port));
    url.port = String(proxy.port);
    const store = await open({ databaseUrl: url.href, connections: 2 }, { timeouts: TIMEOUTS });
    await write(store);
    return { store, proxy };
  }
  /** Another client that holds something until the test ends. */
  async function holding(url: string, ...sql: string[]): Promise<pg.Client> {
    const client = new pg.Client({ connectionString: url });
    client.on('error', () => undefined);
    await client.connect();
    for (const statement of sql) await client.query(statement);
    holders.push(client);
    return client;
  }

  it('a connection ended by the server while nobody used it is not noticed', async () => {
    const { store, url } = await opened();
    await write(store);
    await onDatabase(
      url,
      `select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'pitward' and datname = current_database()`,
    );
    await expectWell(store);
  });

  it('a connection ended by the server in the middle of a write', async () => {
    const { store, url } = await opened();
    await write(store);
    const holder = await holding(url, 'begin', 'lock table places in exclusive mode');
    const waiting = expectFault(
      store,
      () => store.commit({ cells: [cellOf('A 2,2')], alertsRead: [{ places: ['p'], fetchedAtMs: 1 }] }),
      'connection-lost',
    );
    // Until it waits for the lock.
    for (let seen = 0; seen === 0; ) {
      const { rows } = await holder.query(
        `select count(pg_terminate_backend(pid))::int as n from pg_stat_activity where application_name = 'pitward' and datname = current_database() and wait_event_type = 'Lock'`,
      );
      seen = rows[0].n;
    }
    await waiting;
    await holder.query('rollback');
    await expectWell(store);
  });

  it('a network that is cut, and mended', async () => {
    const { store, proxy: network } = await behindProxy();
    network.cut();
    for (const call of [
      () => write(store),
      () => store.marks(),
      () => store.care.probe(1),
      () => store.forecasts.cells(),
    ]) {
      await expectFault(store, call, 'connection-lost');
    }
    network.mend();
    await expectWell(store);
  });

  it('a network that falls silent, also in the middle of a write', async () => {
    const { store, proxy: network } = await behindProxy();
    network.silence();
    await expectFault(store, () => store.marks(), 'too-slow', 'connection-lost');
    await expectFault(store, () => write(store), 'too-slow', 'connection-lost');
    // Many at once do not add up.
    await Promise.all(
      Array.from({ length: 6 }, () => expectFault(store, () => write(store), 'too-slow', 'connection-lost')),
    );
    network.mend();
    await expectWell(store);
  });

  it('a row that another holds', async () => {
    const { store, url } = await opened();
    await write(store);
    const holder = await holding(url, 'begin', 'update cells set failures = 9');
    await expectFault(store, () => write(store), 'locked');
    // What does not need it goes on.
    await store.definitions.change([changeOf('a', 0)]);
    await holder.query('rollback');
    await expectWell(store);
  });

  it('a statement that takes too long', async () => {
    const { store, url } = await opened();
    await onDatabase(
      url,
      `create function slow() returns trigger language plpgsql as 'begin perform pg_sleep(5); return new; end';
       create trigger slow before insert on cells for each row execute function slow()`,
    );
    await expectFault(store, () => write(store), 'too-slow');
    await onDatabase(url, 'drop trigger slow on cells');
    await expectWell(store);
  });

  it('a database that may only be read', async () => {
    const { store, url } = await opened();
    await write(store);
    const readOnly = (value: string) =>
      onDatabase(
        url,
        `alter database ${new URL(url).pathname.slice(1)} set default_transaction_read_only = ${value};
        select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'pitward' and datname = current_database()`,
      );
    await readOnly('on');
    await expectFault(store, () => write(store), 'read-only');
    // Reading goes on, and does not make it well.
    expect(await store.forecasts.cells()).toHaveLength(1);
    expect(store.health()).toMatchObject({ ok: false, cause: 'read-only' });
    const client = new pg.Client({ connectionString: url });
    await client.connect();
    await client.query('set default_transaction_read_only = off');
    await client.query(
      `alter database ${new URL(url).pathname.slice(1)} set default_transaction_read_only = off`,
    );
    await client.query(
      `select pg_terminate_backend(pid) from pg_stat_activity where application_name = 'pitward' and datname = current_database()`,
    );
    await client.end();
    await expectWell(store);
  });

  it('a disk that is full, as the server tells it', async () => {
    const { store, url } = await opened();
    await onDatabase(
      url,
      `create function full_disk() returns trigger language plpgsql as
         'begin raise exception ''could not extend file: No space left on device'' using errcode = ''53100''; end';
       create trigger full_disk before insert on cells for each row execute function full_disk()`,
    );
    await expectFault(store, () => write(store), 'disk-full');
    expect(await store.forecasts.cells()).toEqual([]);
    expect(store.health()).toMatchObject({ ok: false, cause: 'disk-full' });
    await onDatabase(url, 'drop trigger full_disk on cells');
    await expectWell(store);
  });

  it('all connections in use: the rest wait, and then say so', async () => {
    const { store, url } = await opened();
    await write(store);
    const holder = await holding(url, 'begin', 'lock table cells in access exclusive mode');
    const outcomes = await Promise.allSettled(Array.from({ length: 12 }, () => store.forecasts.cells()));
    expect(new Set(outcomes.map((o) => (o.status === 'rejected' ? o.reason.facts.cause : 'ok')))).toEqual(
      new Set(['locked', 'too-slow']),
    );
    await holder.query('rollback');
    await expectWell(store);
  });

  it('a server that is not there when the program starts', async () => {
    const { proxy: network } = await behindProxy();
    network.cut();
    const gone = { databaseUrl: `postgres://pitward@127.0.0.1:${network.port}/none` };
    await expect(open(gone, { timeouts: TIMEOUTS })).rejects.toMatchObject({
      code: 'store_unavailable',
      facts: { cause: 'connection-lost' },
    });
  });

  it('codes of the server (PostgreSQL manual, appendix A) have the cause that they mean', () => {
    const { causeOf } = openPostgres({ databaseUrl: 'postgres://127.0.0.1/none' }, TIMEOUTS, () => undefined);
    const cause = (code: string) => causeOf(Object.assign(new pg.DatabaseError('', 0, 'error'), { code }));
    const told = {
      '53100': 'disk-full',
      '53300': 'too-slow',
      '25006': 'read-only',
      '55P03': 'locked',
      '57014': 'too-slow',
      '57P01': 'connection-lost',
      '57P03': 'connection-lost',
      '08006': 'connection-lost',
      XX001: 'damaged',
      '42P01': 'other',
    };
    for (const [code, expected] of Object.entries(told))
      expect([code, cause(code)]).toEqual([code, expected]);
    expect(causeOf(new TypeError('x is not a function'))).toBeNull();
  });
});
