// Subscriptions with where they stand, in one look.

import type { Kysely } from 'kysely';
import type { Tables } from '#store/tables.ts';
import type { KeptHook } from './records.ts';
import { asKept } from './rows.ts';

export const kept = (db: Kysely<Tables>) =>
  db
    .selectFrom('subscriptions')
    .innerJoin('hookStates', 'hookStates.subscription', 'subscriptions.id')
    .selectAll(['subscriptions', 'hookStates']);

export async function oneIn(db: Kysely<Tables>, id: string): Promise<KeptHook | null> {
  const row = await kept(db).where('id', '=', id).executeTakeFirst();
  return row ? asKept(row) : null;
}
