// The queue of many processes: turns wait in the database (pg-boss) and go to whichever process has room. A process that
// dies leaves its turns to the others; that a turn is done once is the claim's doing, not the queue's.

import { type Job, PgBoss } from 'pg-boss';
import { messageOf } from '#errors.ts';
import type { SourceLog } from '#sources/source.ts';
import type { TurnQueue } from './queue.ts';
import type { TurnTaker } from './take-turn.ts';
import { type Turn, turnId } from './turn.ts';

export interface PostgresQueueOptions {
  readonly databaseUrl: string;
  /** Null: this process hands turns over and takes none. */
  readonly taker: TurnTaker | null;
  readonly log: SourceLog;
}

const QUEUE = 'turn';
const SCHEMA = 'pitward_turns';

/** A batch is fetched together, and each turn of it settled for itself. */
const WORK = {
  batchSize: 4,
  localConcurrency: 2,
  burstWhenBatchFull: true,
  pollingIntervalSeconds: 0.5,
  heartbeatRefreshSeconds: 3,
  perJobResults: true,
} as const;

/** A turn whose worker gives no sign of life for 10 s goes to another; one longer than a pull's deadline has hung. */
const TURNS = {
  heartbeatSeconds: 10,
  expireInSeconds: 300,
  retryLimit: 30,
  retryDelay: 5,
  retentionSeconds: 3600,
  deleteAfterSeconds: 3600,
} as const;

export async function createQueuePostgres(options: PostgresQueueOptions): Promise<TurnQueue> {
  const { databaseUrl, taker, log } = options;
  const stopping = new AbortController();
  const boss = new PgBoss({
    connectionString: databaseUrl,
    schema: SCHEMA,
    application_name: 'pitward turns',
    max: 4,
    superviseIntervalSeconds: 2,
    monitorIntervalSeconds: 2,
    schedule: false,
  });
  boss.on('error', (fault) => log.warn({ message: messageOf(fault) }, 'the queue has a fault'));
  await boss.start();
  await boss.createQueue(QUEUE, TURNS);
  let running = 0;
  if (taker !== null) {
    await boss.work(QUEUE, WORK, async (jobs: Job<Turn>[]) => {
      running += jobs.length;
      try {
        return await Promise.all(jobs.map((job) => takeJob(taker, job, stopping.signal, log)));
      } finally {
        running -= jobs.length;
      }
    });
  }
  return {
    async send(turns) {
      if (turns.length === 0) return;
      await boss.insert(
        QUEUE,
        turns.map((turn) => ({ id: turnId(turn), data: turn })),
      );
    },
    // What waits in the database is every process's; here only what runs here can be waited for.
    idle: () => Promise.resolve(),
    waiting: () => 0,
    running: () => running,
    async stop() {
      stopping.abort();
      await boss.stop({ graceful: true, timeout: 5000 });
    },
  };
}

async function takeJob(
  taker: TurnTaker,
  job: { readonly id: string; readonly data: Turn },
  signal: AbortSignal,
  log: SourceLog,
): Promise<{ id: string; status: 'completed' | 'failed'; output?: { why: string } }> {
  const { id, data } = job;
  try {
    const outcome = await taker.take(data, signal);
    // Another has it still, or seems to: the queue asks again until it is done or the claim is dead.
    return outcome === 'done'
      ? { id, status: 'completed' }
      : { id, status: 'failed', output: { why: 'taken' } };
  } catch (fault) {
    if (!signal.aborted) log.warn({ ...data, fault: messageOf(fault) }, 'turn left undone');
    return { id, status: 'failed', output: { why: messageOf(fault) } };
  }
}
