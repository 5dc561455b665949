// Creates tables from column lists, for migrations after the first.

import type { CreateTableBuilder, Kysely } from 'kysely';
import type { ColumnTypes } from '#store/dialect/database.ts';

// biome-ignore lint/suspicious/noExplicitAny: a migration knows the tables of its own time only
export type AnyDatabase = Kysely<any>;

type Column = 'text' | 'integer';

export type CreateTable = (
  name: string,
  /** `?` allows null. */
  columns: Record<string, Column | `${Column}?`>,
  primary: readonly string[],
) => Promise<void>;

export function createTableIn(db: AnyDatabase, types: ColumnTypes): CreateTable {
  return async (name, columns, primary) => {
    // biome-ignore lint/suspicious/noExplicitAny: as above
    let table: CreateTableBuilder<any, any> = db.schema.createTable(name);
    for (const [column, kind] of Object.entries(columns)) {
      const type = kind.startsWith('text') ? types.text : 'bigint';
      table = table.addColumn(column, type as 'bigint', (c) => (kind.endsWith('?') ? c : c.notNull()));
    }
    await table.addPrimaryKeyConstraint(`${name}_key`, [...primary]).execute();
  };
}
