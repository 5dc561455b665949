// Numbers that rise with every change. Raising one holds its row until the transaction ends, so that whoever raises the
// same one takes turns, and the numbers stand in the order of the commits without a gap.

import type { Kysely, Transaction } from 'kysely';
import type { Tables } from './tables.ts';

export type CounterName = 'definitions' | 'events' | 'events-dropped' | 'keys' | 'subscriptions';

/** The value after raising. */
export async function raise(transaction: Transaction<Tables>, name: CounterName, by = 1): Promise<number> {
  const row = await transaction
    .updateTable('counters')
    .set((e) => ({ value: e('value', '+', by) }))
    .where('name', '=', name)
    .returning('value')
    .executeTakeFirstOrThrow();
  return row.value;
}

/** The same for one that a backup of an older version does not have. */
export async function raiseOrBegin(transaction: Transaction<Tables>, name: CounterName): Promise<void> {
  await transaction
    .insertInto('counters')
    .values({ name, value: 1 })
    .onConflict((c) => c.column('name').doUpdateSet((e) => ({ value: e('counters.value', '+', 1) })))
    .execute();
}

/** Waits until nobody else is at work under this counter, and keeps others waiting until the transaction ends. */
export const takeTurn = (transaction: Transaction<Tables>, name: CounterName): Promise<number> =>
  raise(transaction, name, 0);

export async function counterValues(db: Kysely<Tables>): Promise<ReadonlyMap<string, number>> {
  const rows = await db.selectFrom('counters').selectAll().execute();
  return new Map(rows.map((row) => [row.name, row.value]));
}
