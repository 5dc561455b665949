// One log of everything that happened: beside plans that differ, taps, notices and orders.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import type { AnyDatabase } from './create-table.ts';

export const events = ({ text }: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    const added = [
      ['organisation', ''],
      ['kind', 'window-changed'],
      ['subject', ''],
    ] as const;
    for (const [name, value] of added)
      await db.schema
        .alterTable('events')
        .addColumn(name, text as unknown as 'text', (c) => c.notNull().defaultTo(value))
        .execute();
    await db.schema.alterTable('events').addColumn('valid_until_ms', 'bigint').execute();
    await nameOwners(db);
    await db.schema
      .createIndex('events_of_organisation')
      .on('events')
      .columns(['organisation', 'position'])
      .execute();
    await db.insertInto('counters').values({ name: 'events-dropped', value: 0 }).execute();
  },
});

/** Those of a program of the version before that goes on beside have none: readers go by their sites. */
async function nameOwners(db: AnyDatabase): Promise<void> {
  const sites: { site: string }[] = await db.selectFrom('events').select('site').distinct().execute();
  const owners = new Set(sites.map(({ site }) => site.slice(0, site.indexOf('/'))));
  for (const organisation of owners)
    await db
      .updateTable('events')
      .set((e) => ({ organisation, subject: e.ref('plan_id') }))
      .where('site', '>=', `${organisation}/`)
      // The character after the slash.
      .where('site', '<', `${organisation}0`)
      .execute();
}
