// Subscriptions that are made, changed, moved and taken out, each with its audit row.

import type { Transaction } from 'kysely';
import { fresh } from '#core/events/hook-step.ts';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from '#store/access.ts';
import { addAudit } from '#store/audit.ts';
import { counterValues, raiseOrBegin } from '#store/counters.ts';
import { keepReply, replyTo } from '#store/replies.ts';
import type { Tables } from '#store/tables.ts';
import { oneIn } from './read-hooks.ts';
import type { HookRecords, HookReplied, HookReply } from './records.ts';
import { asRow, standingColumns } from './rows.ts';

type Writes = Pick<HookRecords, 'add' | 'change' | 'remove' | 'moveTo'>;

export function subscriptionWrites({ writing }: DatabaseAccess): Writes {
  const replied = (
    { request, reply }: HookReply,
    id: string,
    write: (transaction: Transaction<Tables>) => Promise<void>,
  ): Promise<HookReplied> =>
    writing('definitions', async (transaction) => {
      // Whoever sends the same twice at once waits here.
      await raiseOrBegin(transaction, 'subscriptions');
      const before = request ? await replyTo(transaction, request) : null;
      if (before) return { outcome: before, replayed: true };
      await write(transaction);
      const made = await oneIn(transaction, id);
      if (!made) throw notThere(id);
      const outcome = reply(made);
      if (request) await keepReply(transaction, request, outcome);
      return { outcome, replayed: false };
    });
  return {
    add: (subscription, audit, reply) =>
      replied(reply, subscription.id, async (transaction) => {
        const position = (await counterValues(transaction)).get('events') ?? 0;
        await transaction.insertInto('subscriptions').values(asRow(subscription)).execute();
        await transaction
          .insertInto('hookStates')
          .values({
            ...standingColumns(fresh(position)),
            subscription: subscription.id,
            turn: 0,
            attempts: 0,
            lastTakenAtMs: null,
            worker: '',
            claimedAtMs: 0,
          })
          .execute();
        await addAudit(transaction, [audit]);
      }),
    change: (subscription, audit, reply) =>
      replied(reply, subscription.id, async (transaction) => {
        const { id, revision } = subscription;
        const { numUpdatedRows } = await transaction
          .updateTable('subscriptions')
          .set(asRow(subscription))
          .where('id', '=', id)
          .where('revision', '=', revision - 1)
          .executeTakeFirst();
        if (numUpdatedRows === 0n) throw await refusal(transaction, id);
        await goOn(transaction, id, null);
        await addAudit(transaction, [audit]);
      }),
    remove: (id, revision, audit) =>
      writing('definitions', async (transaction) => {
        await raiseOrBegin(transaction, 'subscriptions');
        const { numDeletedRows } = await transaction
          .deleteFrom('subscriptions')
          .where('id', '=', id)
          .where('revision', '=', revision)
          .executeTakeFirst();
        if (numDeletedRows === 0n) throw await refusal(transaction, id);
        await transaction.deleteFrom('hookStates').where('subscription', '=', id).execute();
        await transaction.deleteFrom('hookAttempts').where('subscription', '=', id).execute();
        await addAudit(transaction, [audit]);
      }),
    moveTo: (id, position, audit) =>
      writing('definitions', async (transaction) => {
        await raiseOrBegin(transaction, 'subscriptions');
        if ((await goOn(transaction, id, position)) === 0n) throw notThere(id);
        await addAudit(transaction, [audit]);
      }),
  };
}

/** At once, whatever it waited for; what is under way settles nothing any more. */
async function goOn(transaction: Transaction<Tables>, id: string, position: number | null): Promise<bigint> {
  const { numUpdatedRows } = await transaction
    .updateTable('hookStates')
    .set((e) => ({
      turn: e('turn', '+', 1),
      ...{ refusals: 0, firstTriedAtMs: null, failures: 0, failingSinceMs: null, nextAtMs: 0 },
      ...{ endedWhy: null, endedAtMs: null },
      ...(position === null ? {} : { position, missedFrom: null, missedTo: null, missedCount: 0 }),
    }))
    .where('subscription', '=', id)
    .executeTakeFirst();
  return numUpdatedRows;
}

async function refusal(transaction: Transaction<Tables>, id: string): Promise<ServiceError> {
  const row = await transaction
    .selectFrom('subscriptions')
    .select('revision')
    .where('id', '=', id)
    .executeTakeFirst();
  if (!row) return notThere(id);
  return new ServiceError(
    'changed_meanwhile',
    `subscription "${id}" was changed meanwhile; its newest revision is "r${row.revision}"`,
  );
}

const notThere = (id: string): ServiceError => new ServiceError('not_found', `no subscription "${id}"`);
