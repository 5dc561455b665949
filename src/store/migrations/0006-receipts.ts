// What networks say later of texts that they had taken.

import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { type AnyDatabase, createTableIn } from './create-table.ts';

export const receipts = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    await db.schema.alterTable('deliveries').addColumn('delivered_at_ms', 'bigint').execute();
    await createTableIn(db, types)(
      'receipts',
      {
        channel: 'text',
        reference: 'text',
        state: 'text',
        code: 'text?',
        at_ms: 'integer',
        delivery: 'text?',
      },
      ['channel', 'reference', 'state'],
    );
    await db.schema
      .createIndex('receipts_unmatched')
      .on('receipts')
      .column('at_ms')
      .where(sql.ref('delivery'), 'is', null)
      .execute();
    // What was sent is found by what the other side calls it.
    await db.schema
      .createIndex('deliveries_sent')
      .on('deliveries')
      .columns(['channel', 'detail'])
      .where(sql.ref('outcome'), '=', sql.lit('sent'))
      .execute();
  },
});
