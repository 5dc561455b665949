// What calendars were told of go windows: their names and how often each has changed.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { type AnyDatabase, createTableIn } from './create-table.ts';

export const calendar = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    await createTableIn(db, types)(
      'calendar_windows',
      {
        site: 'text',
        date: 'text',
        number: 'integer',
        uid: 'text',
        from_ms: 'integer',
        to_ms: 'integer',
        sequence: 'integer',
        cancelled: 'integer',
        changed_at_ms: 'integer',
      },
      ['site', 'date', 'number'],
    );
    await db.schema.createIndex('calendar_windows_by_end').on('calendar_windows').column('to_ms').execute();
  },
});
