// One turn of work, written together or not at all. Rows are taken in the same order by all who write, so that two
// batches wait for each other and never for ever.

import { ServiceError } from '#errors.ts';
import type { DatabaseAccess } from './access.ts';
import type { Batch } from './batch.ts';
import { finishClaims } from './claims.ts';
import { addDocuments, intactOf, useDocuments } from './documents.ts';
import { addEvents } from './events.ts';
import { type PackedDocument, packDocument } from './pack-document.ts';
import { addPlans, stillNext } from './plans.ts';
import { noteAlertsRead, putCells, putPlaces } from './states.ts';
import type { WriteKind } from './store-health.ts';

export function createCommit(
  { database, reading, writing }: DatabaseAccess,
  nowMs: () => number,
): (batch: Batch) => Promise<void> {
  const write = (batch: Batch, packed: readonly PackedDocument[]): Promise<void> =>
    writing(kindOf(batch, packed), async (transaction) => {
      const usedAtMs = Math.max(nowMs(), ...(batch.plans ?? []).map((plan) => plan.madeAtMs));
      // First, so that a worker that lost its claim changes nothing and nobody takes one over half-way.
      await finishClaims(transaction, batch.done ?? [], nowMs());
      await addDocuments(transaction, packed, usedAtMs);
      await useDocuments(transaction, referredTo(batch), usedAtMs);
      await putCells(transaction, batch.cells ?? []);
      await putPlaces(transaction, batch.places ?? []);
      for (const read of batch.alertsRead ?? []) await noteAlertsRead(transaction, read);
      const plans = await stillNext(transaction, batch, database.kind === 'postgres');
      const added = await addPlans(transaction, plans, batch.follows !== undefined);
      // The plan was kept already, or another came before it: what differs with it is not told.
      const known = new Set((batch.plans ?? []).map((p) => p.planId).filter((id) => !added.has(id)));
      const events = (batch.events ?? []).filter(({ subject }) => !known.has(subject));
      await addEvents(transaction, events);
    });

  const isDamage = (fault: unknown): boolean => database.causeOf(fault) === 'damaged';

  return async (batch) => {
    const given = [...new Map((batch.documents ?? []).map((d) => [d.hash, d])).values()];
    const known =
      given.length === 0 ? new Set<string>() : await reading((db) => intactOf(db, given, isDamage));
    try {
      await write(batch, given.filter((d) => !known.has(d.hash)).map(packDocument));
    } catch (fault) {
      // Retention dropped one that was known a moment ago.
      if (!(fault instanceof ServiceError) || fault.code !== 'document_missing' || known.size === 0)
        throw fault;
      await write(batch, given.map(packDocument));
    }
  };
}

/** By what needs most room; all else is mostly written in place. */
function kindOf(
  { plans = [], cells, places, alertsRead }: Batch,
  packed: readonly PackedDocument[],
): WriteKind {
  if (packed.length > 0) return 'documents';
  if (plans.length > 0) return 'plans';
  return cells || places || alertsRead ? 'states' : 'claims';
}

/** Hashes that the batch makes something refer to. */
function referredTo({ documents, cells, places, plans }: Batch): string[] {
  const hashes = [
    ...(documents ?? []).map((d) => d.hash),
    ...(cells ?? []).map((c) => c.document),
    ...(places ?? []).map((p) => p.alerts),
    ...(plans ?? []).flatMap(({ basis }) => [basis.definition, basis.document, basis.alerts]),
  ];
  return hashes.filter((hash) => typeof hash === 'string');
}
