// The tables of the watch: what crews tapped and stations observed, what people were told, and what they answered.
// Sites are `organisation/id` throughout. What is read only as a whole is JSON.

import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { type AnyDatabase, type CreateTable, createTableIn } from './create-table.ts';

export const watch = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    const table = createTableIn(db, types);
    await records(table);
    await told(table);
    await people(table);
    await indexes(db);
  },
});

async function records(create: CreateTable): Promise<void> {
  await create('watches', { site: 'text', version: 'integer', judged_at_ms: 'integer?' }, ['site']);
  await create(
    'burn_taps',
    {
      site: 'text',
      id: 'text',
      burn: 'text',
      tap: 'text',
      tapped_at_ms: 'integer',
      received_at_ms: 'integer',
      tapped_by: 'text',
      tapped_from: 'text',
      corrects: 'text?',
      withdraws: 'integer',
      note: 'text',
    },
    ['site', 'id'],
  );
  await create(
    'burns',
    { site: 'text', id: 'text', opened_at_ms: 'integer', closed_at_ms: 'integer?', body: 'text' },
    ['site', 'id'],
  );
  await create(
    'observations',
    {
      site: 'text',
      station: 'text',
      observed_at_ms: 'integer',
      revision: 'integer',
      received_at_ms: 'integer',
      body: 'text',
    },
    ['site', 'station', 'observed_at_ms', 'revision'],
  );
}

async function told(create: CreateTable): Promise<void> {
  await create(
    'notices',
    { key: 'text', site: 'text', phase: 'text', episode: 'text', stepped_at_ms: 'integer', body: 'text' },
    ['key'],
  );
  await create(
    'transitions',
    {
      notice: 'text',
      episode: 'text',
      number: 'integer',
      site: 'text',
      at_ms: 'integer',
      message: 'text?',
      part: 'integer?',
      body: 'text',
    },
    ['notice', 'episode', 'number'],
  );
  await create(
    'messages',
    {
      id: 'text',
      site: 'text',
      kind: 'text',
      at_ms: 'integer',
      valid_until_ms: 'integer',
      closed_at_ms: 'integer?',
      body: 'text',
    },
    ['id'],
  );
  await create(
    'deliveries',
    {
      id: 'text',
      message: 'text',
      site: 'text',
      contact: 'text',
      step: 'integer',
      way: 'integer',
      repeat: 'integer',
      channel: 'text',
      address: 'text',
      asked: 'integer',
      parts: 'text',
      urgency: 'integer',
      due_at_ms: 'integer',
      valid_until_ms: 'integer',
      tried_at_ms: 'integer?',
      tries: 'integer',
      worker: 'text?',
      token: 'integer',
      lease_until_ms: 'integer?',
      outcome: 'text?',
      settled_at_ms: 'integer?',
      detail: 'text?',
      said: 'text?',
    },
    ['id'],
  );
}

async function people(create: CreateTable): Promise<void> {
  await create(
    'answers',
    {
      id: 'text',
      message: 'text',
      site: 'text',
      contact: 'text',
      said: 'text',
      via: 'text',
      at_ms: 'integer',
      received_at_ms: 'integer',
    },
    ['id'],
  );
  await create(
    'silences',
    { id: 'text', site: 'text', until_ms: 'integer', ended_at_ms: 'integer?', body: 'text' },
    ['id'],
  );
  await create(
    'opt_outs',
    { organisation: 'text', contact: 'text', address: 'text', opted_out_at_ms: 'integer', word: 'text' },
    ['organisation', 'contact'],
  );
  await create('secrets', { name: 'text', value: 'text' }, ['name']);
  await create(
    'day_texts',
    { site: 'text', date: 'text', kind: 'text', at_ms: 'integer', message: 'text', body: 'text' },
    ['site', 'date', 'kind'],
  );
}

async function indexes(db: AnyDatabase): Promise<void> {
  const plain: readonly (readonly [string, string, readonly string[]])[] = [
    ['burn_taps_of_burn', 'burn_taps', ['site', 'burn']],
    ['burns_closed', 'burns', ['closed_at_ms']],
    ['observations_of_site', 'observations', ['site', 'observed_at_ms']],
    ['observations_at', 'observations', ['observed_at_ms']],
    ['notices_of_site', 'notices', ['site']],
    ['transitions_of_site', 'transitions', ['site', 'at_ms']],
    ['transitions_at', 'transitions', ['at_ms']],
    ['transitions_told', 'transitions', ['message']],
    ['messages_of_site', 'messages', ['site', 'at_ms']],
    ['messages_at', 'messages', ['at_ms']],
    ['deliveries_of_message', 'deliveries', ['message']],
    ['deliveries_of_site', 'deliveries', ['site', 'due_at_ms']],
    ['deliveries_due', 'deliveries', ['due_at_ms']],
    ['answers_of_message', 'answers', ['message']],
    ['answers_at', 'answers', ['received_at_ms']],
    ['day_texts_at', 'day_texts', ['at_ms']],
    ['silences_of_site', 'silences', ['site', 'until_ms']],
  ];
  for (const [name, table, columns] of plain) {
    await db.schema
      .createIndex(name)
      .on(table)
      .columns([...columns])
      .execute();
  }
  const index = (name: string, table: string, columns: readonly string[]) =>
    db.schema
      .createIndex(name)
      .on(table)
      .columns([...columns]);
  await index('burns_open', 'burns', ['site']).where(sql.ref('closed_at_ms'), 'is', null).execute();
  await index('notices_standing', 'notices', ['site'])
    .where(sql.ref('phase'), '<>', sql.lit('quiet'))
    .execute();
  await index('messages_open', 'messages', ['at_ms']).where(sql.ref('closed_at_ms'), 'is', null).execute();
  await index('deliveries_waiting', 'deliveries', ['urgency', 'due_at_ms'])
    .where(sql.ref('outcome'), 'is', null)
    .execute();
}
