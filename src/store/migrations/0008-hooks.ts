// Subscriptions of programs that are sent what happens.

import type { Migration } from 'kysely/migration';
import type { ColumnTypes } from '#store/dialect/database.ts';
import { type AnyDatabase, createTableIn } from './create-table.ts';

export const hooks = (types: ColumnTypes): Migration => ({
  async up(db: AnyDatabase) {
    const createTable = createTableIn(db, types);
    await createTable(
      'subscriptions',
      {
        id: 'text',
        organisation: 'text',
        revision: 'integer',
        body: 'text',
        owner_key: 'text?',
        secrets: 'text',
        made_at_ms: 'integer',
        changed_at_ms: 'integer',
        changed_by: 'text',
      },
      ['id'],
    );
    await createTable(
      'hook_states',
      {
        subscription: 'text',
        turn: 'integer',
        position: 'integer',
        refusals: 'integer',
        first_tried_at_ms: 'integer?',
        failures: 'integer',
        failing_since_ms: 'integer?',
        next_at_ms: 'integer',
        missed_from: 'integer?',
        missed_to: 'integer?',
        missed_count: 'integer',
        ended_why: 'text?',
        ended_at_ms: 'integer?',
        attempts: 'integer',
        last_taken_at_ms: 'integer?',
        worker: 'text',
        claimed_at_ms: 'integer',
      },
      ['subscription'],
    );
    await createTable(
      'hook_attempts',
      {
        subscription: 'text',
        number: 'integer',
        webhook_id: 'text',
        type: 'text',
        at_ms: 'integer',
        took_ms: 'integer',
        outcome: 'text',
        status: 'integer?',
        reason: 'text?',
        detail: 'text?',
      },
      ['subscription', 'number'],
    );
  },
});
