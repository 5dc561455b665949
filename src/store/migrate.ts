// Brings the tables up to this program. Forward only, under the migrator's lock: programs that start at once take turns.

import { type Kysely, sql } from 'kysely';
import { Migrator } from 'kysely/migration';
import { ServiceError } from '#errors.ts';
import type { Database } from '#store/dialect/database.ts';
import { migrationsFor } from '#store/migrations/all.ts';
import type { Tables } from './tables.ts';

/** Throws ServiceError `store_newer` where a newer program has written the store. */
export async function migrate(database: Database): Promise<void> {
  const migrations = migrationsFor(database.columnTypes);
  const refuseNewer = (applied: readonly string[]): void => {
    const unknown = applied.filter((name) => !Object.hasOwn(migrations, name));
    if (unknown.length > 0) throw newer('the store', unknown);
  };
  const before = await appliedMigrations(database.db);
  refuseNewer(before);
  if (before.length === Object.keys(migrations).length) return;
  const { db, done } = await database.forMigration();
  try {
    // The names in a migration are the database's own.
    const migrator = new Migrator({
      db: db.withoutPlugins(),
      provider: { getMigrations: async () => migrations },
    });
    const { error } = await migrator.migrateToLatest();
    if (error === undefined) return;
    // A newer program may have been at work at the same moment.
    refuseNewer(await appliedMigrations(db));
    throw error;
  } finally {
    await done();
  }
}

/** None where there is no table of them yet; whatever else keeps it from being read will keep the migrator too. */
export async function appliedMigrations(db: Kysely<Tables>): Promise<string[]> {
  const query = sql<{ name: string }>`select name from kysely_migration order by name`;
  return query.execute(db).then(
    ({ rows }) => rows.map((row) => row.name),
    () => [],
  );
}

export const newer = (what: string, unknown: readonly string[]): ServiceError =>
  new ServiceError(
    'store_newer',
    `${what} was written by a newer Pitward${unknown.length > 0 ? ` (it has ${unknown.join(', ')})` : ''}: run that version or a later one`,
    { facts: { unknown } },
  );
