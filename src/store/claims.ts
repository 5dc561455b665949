// Who is at work on what. One statement decides, so that of all who ask at once exactly one gets it. Beside the row of each
// turn (work, cycle) a row of the work itself says who is at it now, whatever the turn: two turns of one work never overlap,
// and whoever was taken over can finish none of them.

import type { Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import type { Batch } from './batch.ts';
import type { Claim, ForecastRecords } from './store.ts';
import type { Tables } from './tables.ts';

/** A claim dated further ahead than this came from a clock that was wrong. */
const CLOCKS_DIFFER_MS = 60_000;

/** What only deletes, if anything at all, succeeds on a full disk too. */
const DELETES = (): boolean => false;

/** The cycle of the row of the work itself; that of a turn is a moment. */
const AT_IT_NOW = -1;

export function createClaims({
  writing,
}: DatabaseAccess): Pick<ForecastRecords, 'claim' | 'release' | 'forgetAhead'> {
  return {
    claim: (claim) =>
      writing(
        'claims',
        (transaction) => take(transaction, claim),
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
    forgetAhead: (nowMs) =>
      writing(
        'claims',
        async (transaction) => {
          const aheadMs = nowMs + CLOCKS_DIFFER_MS;
          await transaction.deleteFrom('claims').where('claimedAtMs', '>', aheadMs).execute();
        },
        DELETES,
      ),
  };
}

async function take(transaction: Transaction<Tables>, claim: Claim): Promise<'ours' | 'taken' | 'done'> {
  const before = await lookAt(transaction, claim);
  if (before !== 'free') return before;
  if (!(await takeRow(transaction, claim, AT_IT_NOW))) return 'taken';
  if (await takeRow(transaction, claim, claim.cycle)) return 'ours';
  await leaveWork(transaction, claim);
  return (await lookAt(transaction, claim)) === 'done' ? 'done' : 'taken';
}

/** As it stands; most who ask learn here that it is not for them, and write nothing. */
async function lookAt(transaction: Transaction<Tables>, claim: Claim): Promise<'free' | 'taken' | 'done'> {
  const { work, cycle, worker, nowMs, deadAfterMs } = claim;
  const rows = await transaction
    .selectFrom('claims')
    .select(['cycle', 'worker', 'claimedAtMs', 'doneAtMs'])
    .where('work', '=', work)
    .where('cycle', 'in', [AT_IT_NOW, cycle])
    .execute();
  if (rows.some((row) => row.cycle === cycle && row.doneAtMs !== null)) return 'done';
  const isAlive = (row: (typeof rows)[number]): boolean =>
    row.doneAtMs === null &&
    row.worker !== worker &&
    row.claimedAtMs > nowMs - deadAfterMs &&
    row.claimedAtMs <= nowMs + CLOCKS_DIFFER_MS;
  return rows.some(isAlive) ? 'taken' : 'free';
}

/** Takes a row that nobody has, or whose owner has died; the row of the work also where its last turn is done. */
async function takeRow(transaction: Transaction<Tables>, claim: Claim, cycle: number): Promise<boolean> {
  const { work, worker, nowMs, deadAfterMs } = claim;
  const taken = await transaction
    .insertInto('claims')
    .values({ work, cycle, worker, claimedAtMs: nowMs, doneAtMs: null })
    .onConflict((conflict) =>
      conflict
        .columns(['work', 'cycle'])
        .doUpdateSet({ worker, claimedAtMs: nowMs, doneAtMs: null })
        .where((e) => {
          const isFree = e.or([
            e('claims.worker', '=', worker),
            e('claims.claimedAtMs', '<=', nowMs - deadAfterMs),
            e('claims.claimedAtMs', '>', nowMs + CLOCKS_DIFFER_MS),
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
