// The queue of many processes: turns wait in the database (pg-boss) and go to whichever process has room. A process that
// dies leaves its turns to the others; that a turn is done once is the claim's doing, not the queue's.

import { type Job, PgBoss } from 'pg-boss';
import { messageOf } from '#errors.ts';
import type { SourceLog } from '#sources/source.ts';
import type { TurnQueue } from './queue.ts';
import type { TurnTaker } from './take-turn.ts';
import { isUrgent, type Turn, workOf } from './turn.ts';

export interface PostgresQueueOptions {
  readonly databaseUrl: string;
  /** Null: this process hands turns over and takes none. */
  readonly taker: TurnTaker | null;
  readonly log: SourceLog;
  /** Tries after the first before a turn is given up; what is then still due is handed over anew. */
  readonly retries?: { readonly limit: number; readonly delayS: number };
}

const QUEUE = 'work';
const SCHEMA = 'pitward_turns';

/** A batch is fetched together, and each turn of it settled for itself. */
const WORK = {
  batchSize: 4,
  burstWhenBatchFull: true,
  pollingIntervalSeconds: 0.5,
  heartbeatRefreshSeconds: 3,
  perJobResults: true,
} as const;

/** Pulls of a source that answers slowly must not keep everything else waiting. */
const URGENT = { ...WORK, localConcurrency: 1, minPriority: 1 } as const;
const PATIENT = { ...WORK, localConcurrency: 2, maxPriority: 0 } as const;

/**
 * One piece of work waits or runs once at most, whatever its cycle; once it is done or given up it can be handed over again.
 * A turn whose worker gives no sign of life for 10 s goes to another; one longer than a pull's deadline has hung.
 */
const TURNS = {
  policy: 'exclusive',
  heartbeatSeconds: 10,
  expireInSeconds: 300,
  retentionSeconds: 3600,
  deleteAfterSeconds: 600,
} as const;

/** Longer than a dead worker's claim lives. */
const RETRIES = { limit: 20, delayS: 3 } as const;

/** A clock that nobody sets: with the machine's own, all waiting would stop while one that was set back catches up. */
const STEADY_CLOCK = {
  now: () => performance.timeOrigin + performance.now(),
  setTimeout: (call: () => void, ms: number) => setTimeout(call, ms),
  clearTimeout: (timer: unknown) => clearTimeout(timer as NodeJS.Timeout),
  setInterval: (call: () => void, ms: number) => setInterval(call, ms),
  clearInterval: (timer: unknown) => clearInterval(timer as NodeJS.Timeout),
};

/** A server that says nothing any more must not keep a question waiting for ever. */
const CONNECTION = { max: 4, query_timeout: 60_000, keepAlive: true } as const;

export async function createQueuePostgres(options: PostgresQueueOptions): Promise<TurnQueue> {
  const { databaseUrl, taker, log, retries = RETRIES } = options;
  const stopping = new AbortController();
  const boss = new PgBoss({
    ...CONNECTION,
    connectionString: databaseUrl,
    schema: SCHEMA,
    application_name: 'pitward turns',
    clock: STEADY_CLOCK,
    superviseIntervalSeconds: 2,
    monitorIntervalSeconds: 2,
    schedule: false,
  });
  boss.on('error', (fault) => log.warn({ message: messageOf(fault) }, 'the queue has a fault'));
  await boss.start();
  await boss.createQueue(QUEUE, { ...TURNS, retryLimit: retries.limit, retryDelay: retries.delayS });
  let running = 0;
  if (taker !== null) {
    const takeJobs = async (jobs: Job<Turn>[]) => {
      running += jobs.length;
      try {
        return await Promise.all(jobs.map((job) => takeJob(taker, job, stopping.signal, log)));
      } finally {
        running -= jobs.length;
      }
    };
    await boss.work(QUEUE, URGENT, takeJobs);
    await boss.work(QUEUE, PATIENT, takeJobs);
  }
  return {
    async send(turns) {
      if (turns.length === 0) return;
      await boss.insert(
        QUEUE,
        turns.map((turn) => ({
          data: turn,
          singletonKey: workOf(turn),
          priority: isUrgent(turn) ? 1 : 0,
        })),
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
