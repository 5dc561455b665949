// When a delivery may be tried again, beside when it was due first: how long somebody has been asked is told by the first.

import type { Migration } from 'kysely/migration';
import type { AnyDatabase } from './create-table.ts';

export const putOff = (): Migration => ({
  async up(db: AnyDatabase) {
    await db.schema.alterTable('deliveries').addColumn('not_before_ms', 'bigint').execute();
  },
});
