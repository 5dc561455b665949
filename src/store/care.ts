// Looking after the store: whether it writes, what it no longer needs, how large it is.

import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import { createExpire } from './expire.ts';
import type { StoreCare } from './store.ts';
import type { Tables } from './tables.ts';

const PROBE = 'probe';

export function createCare(access: DatabaseAccess, nowMs: () => number): StoreCare {
  const { database, reading, writing } = access;
  return {
    probe: (atMs) =>
      writing(async (transaction) => {
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
    sizes: () =>
      reading(async (db) => {
        const rows: Record<string, number> = {};
        for (const table of COUNTED) {
          const { count } = await db
            .selectFrom(table)
            .select((e) => e.fn.countAll<number>().as('count'))
            .executeTakeFirstOrThrow();
          rows[table] = Number(count);
        }
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
