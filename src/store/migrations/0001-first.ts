// The first tables: definitions, documents, forecasts, plans with their events, keys, and what keeps them right.

import type { CreateTableBuilder, Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';

// biome-ignore lint/suspicious/noExplicitAny: a migration knows the tables of its own time only
type AnyDatabase = Kysely<any>;

export const first = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    const table = columnsIn(db, types);
    await definitions(table);
    await forecasts(table);
    await plans(table);
    await keys(table);
    await db.schema.createIndex('documents_used_at').on('documents').column('used_at_ms').execute();
    await db.schema.createIndex('claims_claimed_at').on('claims').column('claimed_at_ms').execute();
    await db.schema.createIndex('replies_at').on('replies').column('at_ms').execute();
    await db.schema.createIndex('plans_of_site').on('plans').columns(['site', 'made_at_ms']).execute();
    await db.schema.createIndex('events_of_site').on('events').columns(['site', 'position']).execute();
    await db
      .insertInto('counters')
      .values(['definitions', 'events', 'keys'].map((name) => ({ name, value: 0 })))
      .execute();
  },
});

type Column = 'text' | 'integer' | 'bytes' | 'counted';
type CreateTable = (
  name: string,
  columns: Record<string, Column | `${Column}?`>,
  keys: { readonly primary?: readonly string[]; readonly unique?: readonly string[] },
) => Promise<void>;

/** Creates tables from column lists; `?` allows null. */
function columnsIn(db: AnyDatabase, types: ColumnTypes): CreateTable {
  const typeOf = (column: Column) => (column === 'integer' ? 'bigint' : types[column]);
  return async (name, columns, { primary, unique }) => {
    // biome-ignore lint/suspicious/noExplicitAny: as above
    let table: CreateTableBuilder<any, any> = db.schema.createTable(name);
    for (const [column, kind] of Object.entries(columns)) {
      const type = kind.replace('?', '') as Column;
      table = table.addColumn(column, typeOf(type) as 'bigint', (c) =>
        kind.endsWith('?') || type === 'counted' ? c : c.notNull(),
      );
    }
    if (primary) table = table.addPrimaryKeyConstraint(`${name}_key`, [...primary]);
    if (unique) table = table.addUniqueConstraint(`${name}_once`, [...unique]);
    await table.execute();
  };
}

async function definitions(create: CreateTable): Promise<void> {
  await create(
    'definitions',
    {
      organisation: 'text',
      kind: 'text',
      id: 'text',
      revision: 'integer',
      body: 'text?',
      origin: 'text',
      changed_at_ms: 'integer',
      changed_by: 'text',
    },
    { primary: ['organisation', 'kind', 'id', 'revision'] },
  );
  await create(
    'replies',
    {
      organisation: 'text',
      key: 'text',
      request_hash: 'text',
      at_ms: 'integer',
      status: 'integer',
      body: 'text',
      headers: 'text',
    },
    { primary: ['organisation', 'key'] },
  );
  await create('counters', { name: 'text', value: 'integer' }, { primary: ['name'] });
  await create('probes', { name: 'text', at_ms: 'integer' }, { primary: ['name'] });
}

async function forecasts(create: CreateTable): Promise<void> {
  await create(
    'documents',
    // The bytes stand last, so that the rest can be read without them.
    { hash: 'text', kind: 'text', size: 'integer', used_at_ms: 'integer', packed: 'bytes' },
    { primary: ['hash'] },
  );
  await create(
    'cells',
    {
      cell: 'text',
      document: 'text?',
      received_at_ms: 'integer?',
      confirmed_at_ms: 'integer?',
      issued_at_ms: 'integer?',
      etag: 'text?',
      last_modified: 'text?',
      fault: 'text?',
      failures: 'integer',
      cycle: 'integer',
      tried_at_ms: 'integer',
      version: 'integer',
    },
    { primary: ['cell'] },
  );
  await create(
    'places',
    {
      place: 'text',
      cell: 'text?',
      time_zone: 'text?',
      located: 'text',
      located_at_ms: 'integer?',
      remembered: 'text',
      alerts: 'text?',
      alerts_fetched_at_ms: 'integer?',
      fault: 'text?',
      version: 'integer',
    },
    { primary: ['place'] },
  );
  await create(
    'claims',
    { work: 'text', cycle: 'integer', worker: 'text', claimed_at_ms: 'integer', done_at_ms: 'integer?' },
    { primary: ['work', 'cycle'] },
  );
}

async function plans(create: CreateTable): Promise<void> {
  await create(
    'plans',
    {
      number: 'counted',
      plan_id: 'text',
      site: 'text',
      made_at_ms: 'integer',
      cause: 'text',
      definition: 'text',
      document: 'text',
      document_received_at_ms: 'integer',
      alerts: 'text',
      alerts_fetched_at_ms: 'integer',
      point_time_zone: 'text',
      first_date: 'text',
      day_count: 'integer',
      good_until_ms: 'integer?',
      answer_hash: 'text',
      program: 'text',
      summary: 'text',
    },
    { unique: ['plan_id'] },
  );
  await create(
    'newest_plans',
    { site: 'text', number: 'integer', made_at_ms: 'integer' },
    { primary: ['site'] },
  );
  await create(
    'events',
    { position: 'integer', site: 'text', plan_id: 'text', at_ms: 'integer', changes: 'text' },
    { primary: ['position'] },
  );
}

async function keys(create: CreateTable): Promise<void> {
  await create(
    'api_keys',
    {
      prefix: 'text',
      digest: 'text',
      name: 'text',
      organisation: 'text',
      sites: 'text?',
      scopes: 'text',
      created_at_ms: 'integer',
      expires_at_ms: 'integer?',
      last_used_at_ms: 'integer?',
      revoked_at_ms: 'integer?',
    },
    { primary: ['prefix'], unique: ['digest'] },
  );
  await create(
    'audit',
    {
      number: 'counted',
      at_ms: 'integer',
      organisation: 'text',
      who: 'text',
      what: 'text',
      subject: 'text',
      detail: 'text',
    },
    {},
  );
}
