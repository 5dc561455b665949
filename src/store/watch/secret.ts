// Secrets that all processes over one store share, made by whichever needs one first.

import type { DatabaseAccess } from '#store/access.ts';
import type { WatchRecords } from './records.ts';

export const secretIn =
  ({ writing }: DatabaseAccess): WatchRecords['secret'] =>
  (name, fresh) =>
    writing('secrets', async (transaction) => {
      await transaction
        .insertInto('secrets')
        .values({ name, value: fresh })
        .onConflict((conflict) => conflict.column('name').doNothing())
        .execute();
      const row = await transaction
        .selectFrom('secrets')
        .select('value')
        .where('name', '=', name)
        .executeTakeFirstOrThrow();
      return row.value;
    });
