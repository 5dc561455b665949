// Messages of the Common Alerting Protocol as they were published, how far each organisation's log was told by them, and which
// incidents of dispatch centers burns were assigned to.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { type AnyDatabase, createTableIn } from './create-table.ts';

export const cap = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    const create = createTableIn(db, types);
    await create('cap_feeds', { organisation: 'text', position: 'integer', round: 'integer' }, [
      'organisation',
    ]);
    await create(
      'cap_messages',
      {
        organisation: 'text',
        id: 'text',
        number: 'integer',
        site: 'text',
        chain: 'text',
        sender: 'text',
        sent: 'text',
        sent_ms: 'integer',
        expires_ms: 'integer',
        headline: 'text',
        summary: 'text',
        ends: 'integer',
        is_last: 'integer',
        told: 'text',
        body: 'text',
      },
      ['organisation', 'id'],
    );
    await create(
      'burn_incidents',
      { site: 'text', id: 'text', burn: 'text', at_ms: 'integer', reference: 'text?', by: 'text' },
      ['site', 'burn', 'id'],
    );
    for (const [name, columns] of [
      ['cap_messages_chain', ['organisation', 'chain', 'number']],
      ['cap_messages_open', ['organisation', 'is_last', 'ends']],
      ['cap_messages_expiry', ['expires_ms']],
    ] as const)
      await db.schema
        .createIndex(name)
        .on('cap_messages')
        .columns([...columns])
        .execute();
  },
});
