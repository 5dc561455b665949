// How much each table takes on the disk, its indexes and what is stored beside it included.

import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';

export type TableBytes = Readonly<Record<string, number>>;

export function sqliteTables(file: string): TableBytes {
  const database = new DatabaseSync(file);
  database.exec('pragma wal_checkpoint(truncate)');
  const rows = database
    .prepare(
      'select s.tbl_name as name, sum(d.pgsize) as bytes from dbstat d join sqlite_schema s on s.name = d.name group by 1',
    )
    .all() as unknown as { name: string; bytes: number }[];
  database.close();
  return Object.fromEntries(rows.map(({ name, bytes }) => [name, bytes]));
}

export async function postgresTables(databaseUrl: string): Promise<TableBytes> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const { rows } = await client.query<{ name: string; bytes: string }>(
    `select relname as name, pg_total_relation_size(oid) as bytes from pg_class
     where relkind = 'r' and relnamespace = 'public'::regnamespace`,
  );
  await client.end();
  return Object.fromEntries(rows.map(({ name, bytes }) => [name, Number(bytes)]));
}
