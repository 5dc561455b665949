// Turns that wait in a real PostgreSQL.

import { setTimeout } from 'node:timers/promises';
import pg from 'pg';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createQueuePostgres, type PostgresQueueOptions } from '#jobs/queue-postgres.ts';
import { freshDatabase, onDatabase } from '../postgres/fresh-database.ts';
import { postgresPrograms } from '../postgres/server.ts';
import { type FakeTaker, fakeTaker, turnOf } from './fake-taker.ts';

const noPostgres = postgresPrograms() === null;
const PULL = turnOf('pull', 'A 1,1', 1200);

const closing: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  vi.useRealTimers();
  for (const close of closing.splice(0).reverse()) await close();
});

async function queueOn(
  databaseUrl: string,
  taker: FakeTaker | null,
  retries: Pick<PostgresQueueOptions, 'retries'> = {},
) {
  const log = { info: () => undefined, warn: () => undefined };
  const queue = await createQueuePostgres({ databaseUrl, taker, log, ...retries });
  closing.push(() => queue.stop());
  return queue;
}

function jobsOn(databaseUrl: string) {
  const pool = new pg.Pool({ connectionString: databaseUrl, max: 1 });
  closing.push(() => pool.end());
  return async (): Promise<string[]> => {
    const { rows } = await pool.query(
      `select singleton_key || ' @' || (data->>'cycle') || ' ' || state as job from pitward_turns.job
       where name = 'work' order by created_on`,
    );
    return rows.map(({ job }) => job);
  };
}

/** The database works at its own speed: asked again and again. */
async function until(what: () => unknown): Promise<void> {
  for (let tries = 0; !(await what()); tries += 1) {
    if (tries === 500) throw new Error(`waited too long for ${what}`);
    await setTimeout(50);
  }
}

describe.skipIf(noPostgres)('turns in PostgreSQL', () => {
  it('wait once however many processes hand them over, whatever the cycle', async () => {
    const databaseUrl = await freshDatabase();
    const jobs = jobsOn(databaseUrl);
    const queues = await Promise.all([1, 2, 3].map(() => queueOn(databaseUrl, null)));
    await Promise.all(queues.map((queue) => queue.send([PULL, turnOf('alerts')])));
    await queues[0]?.send([{ ...PULL, cycle: 2400 }]);
    expect((await jobs()).sort()).toEqual(['alerts @60 created', 'pull A 1,1 @1200 created']);
    await queues[1]?.send([turnOf('pull', 'A 2,2', 1200)]);
    expect(await jobs()).toHaveLength(3);
  });

  it('that failed for as long as they are tried are tried again in the same cycle when they are next due', async () => {
    const databaseUrl = await freshDatabase();
    const jobs = jobsOn(databaseUrl);
    const taker = fakeTaker();
    const queue = await queueOn(databaseUrl, taker, { retries: { limit: 1, delayS: 1 } });
    await queue.send([PULL]);
    for (const tries of [1, 2]) {
      await until(() => taker.begun.length === tries);
      // While it is tried the same minute after minute asks in vain.
      await queue.send([PULL]);
      expect(await jobs()).toHaveLength(1);
      await taker.end('pull A 1,1', new Error('the store cannot write'));
    }
    await until(async () => (await jobs()).join() === 'pull A 1,1 @1200 failed');
    await queue.send([PULL]);
    await until(() => taker.begun.length === 3);
    await taker.end('pull A 1,1');
    await until(async () => (await jobs()).includes('pull A 1,1 @1200 completed'));
    expect(new Set(taker.begun)).toEqual(new Set(['pull A 1,1 @1200']));
  });

  it('that are no pulls are taken although every pull hangs', async () => {
    const databaseUrl = await freshDatabase();
    const taker = fakeTaker();
    const queue = await queueOn(databaseUrl, taker);
    await queue.send(Array.from({ length: 12 }, (_, i) => turnOf('pull', `A ${i},1`)));
    await until(() => taker.begun.length === 8);
    await queue.send([turnOf('alerts')]);
    await until(() => taker.begun.includes('alerts @60'));
    expect([taker.begun.length, queue.running()]).toEqual([9, 9]);
  });

  it('of a dead worker go to another, also on a machine whose clock was set back five hours', async () => {
    const databaseUrl = await freshDatabase();
    const jobs = jobsOn(databaseUrl);
    const taker = fakeTaker();
    const hander = await queueOn(databaseUrl, null);
    await queueOn(databaseUrl, taker, { retries: { limit: 3, delayS: 1 } });
    vi.useFakeTimers({ toFake: ['Date'], now: Date.now() - 5 * 3_600_000 });
    // As a worker leaves it that was killed a minute ago.
    await hander.send([PULL]);
    await until(() => taker.begun.length === 1);
    await taker.end('pull A 1,1');
    await until(async () => (await jobs()).includes('pull A 1,1 @1200 completed'));
    await onDatabase(
      databaseUrl,
      `update pitward_turns.job set state = 'active', completed_on = null,
         heartbeat_on = now() - interval '60 s', started_on = now() - interval '90 s'`,
    );
    await until(() => taker.begun.length === 2);
  });
});
