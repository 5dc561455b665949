// Subscriptions over either database: reading, claiming, and keeping what became of each try.

import { sql, type Transaction } from 'kysely';
import type { DatabaseAccess } from '#store/access.ts';
import { chunks } from '#store/chunks.ts';
import { counterValues } from '#store/counters.ts';
import { addEvents } from '#store/events.ts';
import type { Tables } from '#store/tables.ts';
import { kept, oneIn } from './read-hooks.ts';
import { type HookRecords, type KeptHook, MOST_ATTEMPTS, type NewAttempt } from './records.ts';
import { asAttempt, asKept, standingColumns } from './rows.ts';
import { subscriptionWrites } from './write-subscriptions.ts';

export function createHooks(access: DatabaseAccess): HookRecords {
  const { reading } = access;
  return {
    ...subscriptionWrites(access),
    ...workOf(access),
    marks: () =>
      reading(async (db) => {
        const counters = await counterValues(db);
        return { last: counters.get('events') ?? 0, changed: counters.get('subscriptions') ?? 0 };
      }),
    all: () => reading(async (db) => (await kept(db).execute()).map(asKept)),
    of: (organisation) =>
      reading(async (db) => {
        const rows = kept(db).where('organisation', '=', organisation).orderBy('madeAtMs').orderBy('id');
        return (await rows.execute()).map(asKept);
      }),
    one: (id) => reading((db) => oneIn(db, id)),
    attempts: (id, { before, most }) =>
      reading(async (db) => {
        const all = db.selectFrom('hookAttempts').selectAll().where('subscription', '=', id);
        const rows = before === null ? all : all.where('number', '<', before);
        return (await rows.orderBy('number', 'desc').limit(most).execute()).map(asAttempt);
      }),
  };
}

/** What only makes room, or changes in place, says nothing of a disk that was full. */
const IN_PLACE = (): boolean => false;

function workOf({
  database: { clockMs },
  writing,
}: DatabaseAccess): Pick<HookRecords, 'claim' | 'settle' | 'note' | 'release' | 'releaseAll'> {
  return {
    claim: (ids, worker, deadAfterMs) =>
      writing(
        'claims',
        async (transaction) => {
          const ours: KeptHook[] = [];
          // In one order, so that two who claim wait for each other and never for ever.
          for (const some of chunks(ids.toSorted())) {
            const rows = await transaction
              .updateTable('hookStates')
              .set({ worker, claimedAtMs: clockMs })
              .where('subscription', 'in', some)
              .where('endedWhy', 'is', null)
              .where((e) =>
                e.or([
                  e('worker', 'in', ['', worker]),
                  e('claimedAtMs', '<=', sql<number>`${clockMs} - ${deadAfterMs}`),
                  // Dated ahead, it came from a clock that was wrong.
                  e('claimedAtMs', '>', sql<number>`${clockMs} + ${deadAfterMs}`),
                ]),
              )
              .returning('subscription')
              .execute();
            const taken = rows.map(({ subscription }) => subscription);
            if (taken.length > 0)
              ours.push(...(await kept(transaction).where('id', 'in', taken).execute()).map(asKept));
          }
          return ours;
        },
        IN_PLACE,
      ),
    settle: (id, { worker, turn }, standing, attempt, event) =>
      writing('deliveries', async (transaction) => {
        if (attempt) await addAttempt(transaction, id, attempt);
        const { numUpdatedRows } = await transaction
          .updateTable('hookStates')
          .set({ ...standingColumns(standing), claimedAtMs: clockMs })
          .where('subscription', '=', id)
          .where('worker', '=', worker)
          .where('turn', '=', turn)
          .executeTakeFirst();
        if (numUpdatedRows === 0n) return null;
        const now = await oneIn(transaction, id);
        if (event) await addEvents(transaction, [event]);
        return now;
      }),
    note: (id, attempt) => writing('deliveries', (transaction) => addAttempt(transaction, id, attempt)),
    release: (id, worker) =>
      writing(
        'claims',
        async (transaction) => {
          const ours = transaction.updateTable('hookStates').set({ worker: '' }).where('worker', '=', worker);
          await ours.where('subscription', '=', id).execute();
        },
        IN_PLACE,
      ),
    releaseAll: () =>
      writing(
        'claims',
        async (transaction) => {
          await transaction.updateTable('hookStates').set({ worker: '' }).execute();
        },
        IN_PLACE,
      ),
  };
}

/** Of a subscription that was taken out meanwhile nothing is kept. */
async function addAttempt(transaction: Transaction<Tables>, id: string, attempt: NewAttempt): Promise<void> {
  const row = await transaction
    .updateTable('hookStates')
    .set((e) => ({
      attempts: e('attempts', '+', 1),
      ...(attempt.outcome === 'taken' ? { lastTakenAtMs: attempt.atMs } : {}),
    }))
    .where('subscription', '=', id)
    .returning('attempts')
    .executeTakeFirst();
  if (!row) return;
  const number = row.attempts;
  await transaction
    .insertInto('hookAttempts')
    .values({ ...attempt, subscription: id, number })
    .execute();
  await transaction
    .deleteFrom('hookAttempts')
    .where('subscription', '=', id)
    .where('number', '<=', number - MOST_ATTEMPTS)
    .execute();
}
