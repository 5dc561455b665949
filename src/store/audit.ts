// Who did what to what, in the transaction in which it was done.

import type { Kysely, Transaction } from 'kysely';
import type { AuditRow } from './api-key.ts';
import { chunks } from './chunks.ts';
import { fromJson, toJson } from './json.ts';
import type { Tables } from './tables.ts';

export async function addAudit(transaction: Transaction<Tables>, rows: readonly AuditRow[]): Promise<void> {
  for (const some of chunks(rows)) {
    await transaction
      .insertInto('audit')
      .values(some.map((row) => ({ ...row, detail: toJson(row.detail) })))
      .execute();
  }
}

/** The newest rows, newest first. */
export async function readAudit(db: Kysely<Tables>, most: number): Promise<AuditRow[]> {
  const rows = await db.selectFrom('audit').selectAll().orderBy('number', 'desc').limit(most).execute();
  return rows.map(({ number: _, ...row }) => ({ ...row, detail: fromJson(row.detail) }));
}
