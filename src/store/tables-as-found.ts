// For whoever only reads beside a serving process: the tables are taken as they are, and nothing is migrated.

import { ServiceError } from '#errors.ts';
import type { Database } from '#store/dialect/database.ts';
import { migrationsFor } from '#store/migrations/all.ts';
import { appliedMigrations, newer } from './migrate.ts';

/**
 * Throws ServiceError `store_older` (facts.pending: names of migrations; facts.empty: true where there are no tables at
 * all), `store_newer`.
 */
export async function tablesAsFound({ db, columnTypes }: Database): Promise<void> {
  const tables = await db.withoutPlugins().introspection.getTables({ withInternalKyselyTables: true });
  const isThere = tables.some(({ name }) => name === 'kysely_migration');
  const applied = isThere ? await appliedMigrations(db) : [];
  const known = Object.keys(migrationsFor(columnTypes));
  const unknown = applied.filter((name) => !known.includes(name));
  if (unknown.length > 0) throw newer('the store', unknown);
  const pending = known.filter((name) => !applied.includes(name));
  if (pending.length === 0) return;
  const facts = { pending, empty: !isThere };
  throw new ServiceError(
    'store_older',
    isThere
      ? `the store is as an older Pitward left it (pending: ${pending.join(', ')}), and this command changes nothing in it: use the version that serves it, or start the service of this one first`
      : 'the store has no tables yet: start the service once',
    { facts },
  );
}
