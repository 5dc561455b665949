// A past plan made again from what is kept of it: its basis, its moment and its dates. The same bytes, or a fault.

import { makePlan } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import { readAlertsDocument } from '#memory/alerts-document.ts';
import { builtSite } from '#memory/built-sites.ts';
import { readSiteDefinition } from '#memory/site-definition.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { DocumentKind } from '#store/document.ts';
import type { PlanBasis } from '#store/plan-record.ts';
import type { DocumentRecords } from '#store/store.ts';

export interface RebuildOf {
  readonly basis: PlanBasis;
  readonly nowMs: number;
  readonly firstDate: LocalDate;
  readonly dayCount: number;
}

/** Throws ServiceError `not_kept` where a document is no longer kept, `store_unavailable` where it is damaged. */
export async function rebuildPlan(
  documents: DocumentRecords,
  source: Pick<GridSource, 'read'>,
  { basis, nowMs, firstDate, dayCount }: RebuildOf,
): Promise<Plan> {
  const definition = readSiteDefinition(await bytesOf(documents, 'definition', basis.definition));
  const { site, limits } = builtSite(definition, basis.pointTimeZone);
  const bytes = await bytesOf(documents, 'gridpoint', basis.document);
  const forecast = source.read(
    { bytes, hash: basis.document, receivedAtMs: basis.documentReceivedAtMs },
    site.place,
    null,
  );
  const list = readAlertsDocument(await bytesOf(documents, 'alerts', basis.alerts));
  const alerts = { ...list, fetchedAtMs: basis.alertsFetchedAtMs };
  return makePlan({ site, limits, forecast, alerts, nowMs, firstDate, dayCount });
}

async function bytesOf(documents: DocumentRecords, kind: DocumentKind, hash: string): Promise<Uint8Array> {
  const found = await documents.read(hash);
  if (found?.kind === kind) return found.bytes;
  throw new ServiceError('not_kept', `no ${kind} document ${hash.slice(0, 16)} is kept`);
}
