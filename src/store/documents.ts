// Forecast documents, lists of alerts and definitions by content.

import type { Kysely, Transaction } from 'kysely';
import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import { chunks } from './chunks.ts';
import type { DocumentKind, NewDocument } from './document.ts';
import { type PackedDocument, unpackDocument } from './pack-document.ts';
import type { DocumentRecords } from './store.ts';
import type { Tables } from './tables.ts';

/** How exactly it is kept when a document was last used: once a day is enough for retention, and spares the writing. */
export const USED_TO_MS = 86_400_000;

export function createDocuments({ reading }: DatabaseAccess): DocumentRecords {
  return {
    read: (hash) =>
      reading(async (db) => {
        const row = await db.selectFrom('documents').selectAll().where('hash', '=', hash).executeTakeFirst();
        return row ? { kind: row.kind as DocumentKind, bytes: unpackDocument(row) } : null;
      }),
    known: (hashes) => reading((db) => knownOf(db, hashes)),
  };
}

export async function knownOf(db: Kysely<Tables>, hashes: readonly string[]): Promise<ReadonlySet<string>> {
  const found = new Set<string>();
  for (const some of chunks([...new Set(hashes)])) {
    const rows = await db.selectFrom('documents').select('hash').where('hash', 'in', some).execute();
    for (const row of rows) found.add(row.hash);
  }
  return found;
}

/** Those that are kept and can be read: one whose row is damaged is to be written again by whoever brings it. */
export async function intactOf(
  db: Kysely<Tables>,
  documents: readonly NewDocument[],
  isDamage: (fault: unknown) => boolean,
): Promise<ReadonlySet<string>> {
  const intact = new Set<string>();
  const given = new Map(documents.map((d) => [d.hash, d]));
  for (const some of chunks([...given.keys()], 50)) {
    const rows = await db
      .selectFrom('documents')
      .selectAll()
      .where('hash', 'in', some)
      .execute()
      .catch((fault: unknown) => (isDamage(fault) ? [] : Promise.reject(fault)));
    for (const row of rows) {
      if (row.kind === given.get(row.hash)?.kind && isReadable(row)) intact.add(row.hash);
    }
  }
  return intact;
}

function isReadable(row: PackedDocument): boolean {
  try {
    unpackDocument(row);
    return true;
  } catch {
    return false;
  }
}

/** Adds documents; what stands in the place of one gives way to it, since it was found damaged. */
export async function addDocuments(
  transaction: Transaction<Tables>,
  documents: readonly PackedDocument[],
  usedAtMs: number,
): Promise<void> {
  const inOrder = documents.toSorted((a, b) => (a.hash < b.hash ? -1 : 1));
  for (const some of chunks(inOrder, 50)) {
    await transaction
      .insertInto('documents')
      .values(some.map((d) => ({ ...d, usedAtMs })))
      .onConflict((c) =>
        c.column('hash').doUpdateSet((e) => ({
          kind: e.ref('excluded.kind'),
          size: e.ref('excluded.size'),
          packed: e.ref('excluded.packed'),
        })),
      )
      .execute();
  }
}

/**
 * Notes that documents are referred to from now on, so that retention leaves them. Throws `document_missing` where one
 * is not kept: nothing may refer to what cannot be read again.
 */
export async function useDocuments(
  transaction: Transaction<Tables>,
  hashes: readonly string[],
  usedAtMs: number,
): Promise<void> {
  for (const some of chunks([...new Set(hashes)].sort())) {
    const rows = await transaction
      .selectFrom('documents')
      .select(['hash', 'usedAtMs'])
      .where('hash', 'in', some)
      .execute();
    const kept = new Set(rows.map((row) => row.hash));
    const stale = rows.filter((row) => row.usedAtMs < usedAtMs - USED_TO_MS).map((row) => row.hash);
    for (const hash of stale.sort()) {
      const touched = await transaction
        .updateTable('documents')
        .set({ usedAtMs })
        .where('hash', '=', hash)
        .executeTakeFirst();
      // Dropped between the two statements.
      if (touched.numUpdatedRows === 0n) kept.delete(hash);
    }
    const missing = some.filter((hash) => !kept.has(hash));
    if (missing.length > 0) {
      throw new ServiceError(
        'document_missing',
        `the batch refers to documents that are not kept: ${missing.join(', ')}`,
        {
          facts: { missing },
          retryable: true,
        },
      );
    }
  }
}
