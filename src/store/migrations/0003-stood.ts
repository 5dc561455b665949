// How every condition of a site stood when it was last looked at: what the next look starts from.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import type { AnyDatabase } from './create-table.ts';

export const stood = ({ text }: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    await db.schema.alterTable('watches').addColumn('stood', text).execute();
  },
});
