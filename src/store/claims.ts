// Who is at work on what. One statement decides, so that of all who ask at once exactly one gets it. Beside the row of each
// turn (work, cycle) a row of the work itself says who is at it now, whatever the turn: two turns of one work never overlap,
// and whoever was taken over can finish none of them. By the database's clock, since those of the processes differ.

import { type RawBuilder, sql, type Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import type { Batch } from './batch.ts';
import type { Claim, ForecastRecords } from './store.ts';
import type { Tables } from './tables.ts';

/** A claim dated further ahead than this came from a clock that was wrong. */
const AHEAD_MS = 60_000;

/** The cycle of the row of the work itself; that of a turn is a moment [s]. */
const AT_IT_NOW = -1;
/** Turns by hand have numbers above all moments. */
const LAST_MOMENT_S = 1e11;

/** What only deletes, if anything at all, succeeds on a full disk too. */
const DELETES = (): boolean => false;

/** One claim, and the database's own clock. */
interface Asked extends Claim {
  readonly clockMs: RawBuilder<number>;
}

export function createClaims({
  database,
  reading,
  writing,
}: DatabaseAccess): Pick<ForecastRecords, 'claim' | 'release' | 'lastDoneMs' | 'forgetAhead'> {
  const { kind, clockMs } = database;
  return {
    claim: (claim) =>
      writing(
        'claims',
        (transaction) => take(transaction, { ...claim, clockMs }),
        (outcome) => outcome === 'ours',
      ),
    release: (claim) =>
      writing(
        'claims',
        async (transaction) => {
          await leaveWork(transaction, claim);
          await transaction
            .deleteFrom('claims')
            .where('work', '=', claim.work)
            .where('cycle', '=', claim.cycle)
            .where('worker', '=', claim.worker)
            .where('doneAtMs', 'is', null)
            .execute();
        },
        DELETES,
      ),
    lastDoneMs: (work) =>
      reading(async (db) => {
        const rows = db.selectFrom('claims').where('work', '=', work).where('cycle', '>', AT_IT_NOW);
        const last = await rows.select((e) => e.fn.max('doneAtMs').as('atMs')).executeTakeFirst();
        return last?.atMs === null || last === undefined ? null : Number(last.atMs);
      }),
    forgetAhead: (nowMs) =>
      writing(
        'claims',
        async (transaction) => {
          // A process whose own clock is late must not forget what others have done.
          const now = kind === 'postgres' ? clockMs : sql<number>`${nowMs}`;
          await transaction
            .deleteFrom('claims')
            .where('cycle', '<', LAST_MOMENT_S)
            .where((e) => e(sql`cycle * 1000`, '>', sql`${now} + ${AHEAD_MS}`))
            .execute();
        },
        DELETES,
      ),
  };
}

async function take(transaction: Transaction<Tables>, asked: Asked): Promise<'ours' | 'taken' | 'done'> {
  const before = await lookAt(transaction, asked);
  if (before !== 'free') return before;
  if (!(await takeRow(transaction, asked, AT_IT_NOW))) return 'taken';
  if (await takeRow(transaction, asked, asked.cycle)) return 'ours';
  await leaveWork(transaction, asked);
  return (await lookAt(transaction, asked)) === 'done' ? 'done' : 'taken';
}

/** As it stands; most who ask learn here that it is not for them, and write nothing. */
async function lookAt(transaction: Transaction<Tables>, asked: Asked): Promise<'free' | 'taken' | 'done'> {
  const { work, cycle, worker, deadAfterMs, clockMs } = asked;
  const rows = await transaction
    .selectFrom('claims')
    .select(['cycle', 'worker', 'doneAtMs', sql<number>`${clockMs} - claimed_at_ms`.as('ageMs')])
    .where('work', '=', work)
    .where('cycle', 'in', [AT_IT_NOW, cycle])
    .execute();
  if (rows.some((row) => row.cycle === cycle && row.doneAtMs !== null)) return 'done';
  const isAlive = ({ doneAtMs, worker: whose, ageMs }: (typeof rows)[number]): boolean =>
    doneAtMs === null && whose !== worker && ageMs < deadAfterMs && ageMs >= -AHEAD_MS;
  return rows.some(isAlive) ? 'taken' : 'free';
}

/** Takes a row that nobody has, or whose owner has died; the row of the work also where its last turn is done. */
async function takeRow(transaction: Transaction<Tables>, asked: Asked, cycle: number): Promise<boolean> {
  const { work, worker, deadAfterMs, clockMs } = asked;
  const taken = await transaction
    .insertInto('claims')
    .values({ work, cycle, worker, claimedAtMs: clockMs, doneAtMs: null })
    .onConflict((conflict) =>
      conflict
        .columns(['work', 'cycle'])
        .doUpdateSet({ worker, claimedAtMs: clockMs, doneAtMs: null })
        .where((e) => {
          const isFree = e.or([
            e('claims.worker', '=', worker),
            e('claims.claimedAtMs', '<=', sql<number>`${clockMs} - ${deadAfterMs}`),
            e('claims.claimedAtMs', '>', sql<number>`${clockMs} + ${AHEAD_MS}`),
          ]);
          return cycle === AT_IT_NOW
            ? e.or([e('claims.doneAtMs', 'is not', null), isFree])
            : e.and([e('claims.doneAtMs', 'is', null), isFree]);
        }),
    )
    .returning('worker')
    .executeTakeFirst();
  return taken !== undefined;
}

async function leaveWork(
  transaction: Transaction<Tables>,
  { work, worker }: Pick<Claim, 'work' | 'worker'>,
): Promise<void> {
  await transaction
    .deleteFrom('claims')
    .where('work', '=', work)
    .where('cycle', '=', AT_IT_NOW)
    .where('worker', '=', worker)
    .where('doneAtMs', 'is', null)
    .execute();
}

/** Throws ServiceError `claim_lost` where one is no longer ours. */
export async function finishClaims(
  transaction: Transaction<Tables>,
  claims: NonNullable<Batch['done']>,
  nowMs: number,
): Promise<void> {
  const inOrder = claims.toSorted((a, b) => a.cycle - b.cycle || (a.work < b.work ? -1 : 1));
  for (const { work, cycle, worker } of inOrder) {
    const finish = (row: number) =>
      transaction
        .updateTable('claims')
        .set({ doneAtMs: nowMs })
        .where('work', '=', work)
        .where('cycle', '=', row)
        .where('worker', '=', worker)
        .where('doneAtMs', 'is', null)
        .executeTakeFirst();
    // In the order in which they are taken, so that two who are at it wait for each other and never for ever.
    const left = await finish(AT_IT_NOW);
    const finished = await finish(cycle);
    if (left.numUpdatedRows === 0n || finished.numUpdatedRows === 0n) {
      throw new ServiceError('claim_lost', `another worker has taken over "${work}", cycle ${cycle}`, {
        facts: { work, cycle },
      });
    }
  }
}
