// Brings the tables up to this program. Forward only, under the migrator's lock: programs that start at once take turns.

import { sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { ServiceError } from '#errors.ts';
import type { Database } from '#store/dialect/database.ts';
import { migrationsFor } from '#store/migrations/all.ts';

/** Throws ServiceError `store_newer` where a newer program has written the store. */
export async function migrate(database: Database): Promise<void> {
  const migrations = migrationsFor(database.columnTypes);
  const { db, done } = await database.forMigration();
  try {
    // The names in a migration are the database's own.
    const plain = db.withoutPlugins();
    const migrator = new Migrator({ db: plain, provider: { getMigrations: async () => migrations } });
    const refuseNewer = async (): Promise<void> => {
      const unknown = (await appliedMigrations(plain)).filter((name) => !Object.hasOwn(migrations, name));
      if (unknown.length > 0) throw newer(unknown);
    };
    await refuseNewer();
    const { error } = await migrator.migrateToLatest();
    if (error === undefined) return;
    // A newer program may have been at work at the same moment.
    await refuseNewer();
    throw error;
  } finally {
    await done();
  }
}

async function appliedMigrations(db: Parameters<typeof hasTable>[0]): Promise<string[]> {
  if (!(await hasTable(db, 'kysely_migration'))) return [];
  const { rows } = await sql<{ name: string }>`select name from kysely_migration order by name`.execute(db);
  return rows.map((row) => row.name);
}

async function hasTable(db: ConstructorParameters<typeof Migrator>[0]['db'], name: string): Promise<boolean> {
  const tables = await db.introspection.getTables({ withInternalKyselyTables: true });
  return tables.some((table) => table.name === name);
}

const newer = (unknown: readonly string[]): ServiceError =>
  new ServiceError(
    'store_newer',
    `the store was written by a newer Pitward (it has ${unknown.join(', ')}): run that version or a later one`,
    { facts: { unknown } },
  );
