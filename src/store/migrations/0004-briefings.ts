// Winds that crews have acknowledged while their pit burned.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { type AnyDatabase, createTableIn } from './create-table.ts';

export const briefings = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    await createTableIn(db, types)(
      'briefings',
      { site: 'text', id: 'text', burn: 'text', at_ms: 'integer', body: 'text' },
      ['site', 'id'],
    );
    await db.schema.createIndex('briefings_of_burn').on('briefings').columns(['site', 'burn']).execute();
  },
});
