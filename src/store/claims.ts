// Who is at work on what. One statement decides, so that of all who ask at once exactly one gets it.

import type { Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import type { Batch } from './batch.ts';
import type { ForecastRecords } from './store.ts';
import type { Tables } from './tables.ts';

/** A claim dated further ahead than this came from a clock that was wrong. */
const CLOCKS_DIFFER_MS = 60_000;

export function createClaims({ writing }: DatabaseAccess): Pick<ForecastRecords, 'claim' | 'release'> {
  return {
    claim: ({ work, cycle, worker, nowMs, deadAfterMs }) =>
      writing(async (transaction) => {
        const taken = await transaction
          .insertInto('claims')
          .values({ work, cycle, worker, claimedAtMs: nowMs, doneAtMs: null })
          .onConflict((conflict) =>
            conflict
              .columns(['work', 'cycle'])
              .doUpdateSet({ worker, claimedAtMs: nowMs })
              .where('claims.doneAtMs', 'is', null)
              .where((e) =>
                e.or([
                  e('claims.worker', '=', worker),
                  e('claims.claimedAtMs', '<=', nowMs - deadAfterMs),
                  e('claims.claimedAtMs', '>', nowMs + CLOCKS_DIFFER_MS),
                ]),
              ),
          )
          .returning('worker')
          .executeTakeFirst();
        if (taken) return 'ours';
        const row = await transaction
          .selectFrom('claims')
          .select('doneAtMs')
          .where('work', '=', work)
          .where('cycle', '=', cycle)
          .executeTakeFirst();
        return row && row.doneAtMs !== null ? 'done' : 'taken';
      }),
    release: ({ work, cycle, worker }) =>
      writing(async (transaction) => {
        await transaction
          .deleteFrom('claims')
          .where('work', '=', work)
          .where('cycle', '=', cycle)
          .where('worker', '=', worker)
          .where('doneAtMs', 'is', null)
          .execute();
      }),
  };
}

/** Throws ServiceError `claim_lost` where one is no longer ours. */
export async function finishClaims(
  transaction: Transaction<Tables>,
  claims: NonNullable<Batch['done']>,
  nowMs: number,
): Promise<void> {
  const inOrder = claims.toSorted((a, b) => a.cycle - b.cycle || (a.work < b.work ? -1 : 1));
  for (const { work, cycle, worker } of inOrder) {
    const finished = await transaction
      .updateTable('claims')
      .set({ doneAtMs: nowMs })
      .where('work', '=', work)
      .where('cycle', '=', cycle)
      .where('worker', '=', worker)
      .where('doneAtMs', 'is', null)
      .executeTakeFirst();
    if (finished.numUpdatedRows === 0n) {
      throw new ServiceError('claim_lost', `another worker has taken over "${work}", cycle ${cycle}`, {
        facts: { work, cycle },
      });
    }
  }
}
