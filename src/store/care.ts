// Looking after the store: whether it writes, what it no longer needs, how large it is.

import { sql } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import { createExpire } from './expire.ts';
import type { StoreCare } from './store.ts';
import type { Tables } from './tables.ts';

const PROBE = 'probe';

export function createCare(access: DatabaseAccess, nowMs: () => number): StoreCare {
  const { database, reading, proving } = access;
  return {
    probe: (atMs) =>
      proving(async (transaction) => {
        await transaction
          .insertInto('probes')
          .values({ name: PROBE, atMs })
          .onConflict((c) => c.column('name').doUpdateSet({ atMs }))
          .execute();
        const row = await transaction
          .selectFrom('probes')
          .select('atMs')
          .where('name', '=', PROBE)
          .executeTakeFirst();
        if (row?.atMs !== atMs) {
          throw new ServiceError('store_unavailable', 'the store does not give back what was written', {
            retryable: true,
            facts: { cause: 'damaged' },
          });
        }
      }),
    expire: createExpire(access, nowMs),
    bytes: () => reading(() => database.bytesOnDisk()),
    sizes: () =>
      reading(async (db) => {
        const counts = COUNTED.map(
          (table) => sql`select ${sql.lit(table)} as name, count(*) as count from ${sql.table(table)}`,
        );
        const counted = sql<{ name: string; count: number }>`${sql.join(counts, sql` union all `)}`;
        const { rows: found } = await counted.execute(db);
        const rows = Object.fromEntries(found.map(({ name, count }) => [name, Number(count)]));
        return { bytes: await database.bytesOnDisk(), rows };
      }),
  };
}

const COUNTED = [
  'definitions',
  'documents',
  'cells',
  'places',
  'claims',
  'plans',
  'events',
  'apiKeys',
  'audit',
  'replies',
  'watches',
  'burnTaps',
  'burns',
  'observations',
  'notices',
  'transitions',
  'messages',
  'deliveries',
  'answers',
  'silences',
  'optOuts',
  'dayTexts',
] as const satisfies (keyof Tables)[];
