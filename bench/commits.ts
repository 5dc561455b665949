// What turns leave behind, to be written by the store and by its driver alone: a pull with the plan that follows, and a
// hundred plans at once.

import { hash } from 'node:crypto';
import { organisationOf } from '#core/events/event.ts';
import { diffPlans } from '#core/plan/diff-plans.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import { summariseDays } from '#core/plan/plan-summary.ts';
import { DAY_MS } from '#core/units/time.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import type { Batch } from '#store/batch.ts';
import type { NewDocument } from '#store/document.ts';
import { datedDocument } from './dated-document.ts';
import { cellAt } from './nation.ts';
import { planInput } from './pipeline.ts';

export type FullBatch = Required<Pick<Batch, 'documents' | 'cells' | 'plans' | 'events'>>;

const documentOf = (kind: NewDocument['kind'], bytes: Uint8Array): NewDocument => ({
  hash: hash('sha256', bytes, 'hex'),
  kind,
  bytes,
});

export const DEFINITION = documentOf('definition', Buffer.from('{"a":"definition"}'));
export const ALERTS = documentOf('alerts', Buffer.from('{"complete":true,"alerts":[]}'));

/** Summary and changes of a plan of seven days, as real ones are. */
const { summary, changes } = realPlan();

/** The `index`-th pull: a document, the state of its cell, `planCount` plans and an event with each. */
export function commitOf(index: number, planCount: number): FullBatch {
  const atMs = Date.UTC(2026, 2, 1) + index * 60_000;
  const cell = cellAt(index % 3000);
  const pulled = datedDocument(cell, atMs + Math.floor(index / 3000) * DAY_MS, index);
  const document = documentOf('gridpoint', pulled.bytes);
  const plans = Array.from({ length: planCount }, (_, i) => ({
    planId: hash('sha256', `${index} ${i}`, 'hex').slice(0, 32),
    site: `own/site-${i}-${index % 3000}`,
    madeAtMs: atMs,
    cause: 'forecast' as const,
    basis: {
      definition: DEFINITION.hash,
      document: document.hash,
      documentReceivedAtMs: atMs,
      alerts: ALERTS.hash,
      alertsFetchedAtMs: atMs,
      pointTimeZone: cell.timeZone,
    },
    firstDate: '2026-03-01',
    dayCount: 7,
    goodUntilMs: atMs + 3_600_000,
    answerHash: hash('sha256', `answer ${index} ${i}`, 'hex'),
    program: 'bench',
    summary,
  }));
  return {
    documents: [document],
    cells: [
      {
        cell: `${cell.gridId} ${cell.gridX},${cell.gridY}`,
        document: document.hash,
        receivedAtMs: atMs,
        confirmedAtMs: atMs,
        issuedAtMs: pulled.updatedMs,
        etag: null,
        lastModified: null,
        fault: null,
        failures: 0,
        cycle: index,
        triedAtMs: atMs,
      },
    ],
    plans,
    events: plans.map(({ planId, site }) => ({
      organisation: organisationOf(site),
      site,
      kind: 'verdict-changed' as const,
      subject: planId,
      atMs,
      validUntilMs: null,
      data: { plan: planId, cause: 'forecast', changes },
    })),
  };
}

/** The forecast that follows is another one in every hour: more differs than from hour to hour in earnest. */
function realPlan() {
  const forecastAt = (turn: number) =>
    readGridpoint(datedDocument(cellAt(0), Date.UTC(2026, 2, 1, 12), turn).bytes, { fetchedAtMs: 0 })
      .forecast;
  const before = forecastAt(0);
  const input = planInput(before);
  const days = summariseDays(makePlan({ ...input, forecast: before }));
  const after = summariseDays(makePlan({ ...input, forecast: forecastAt(1) }));
  return { summary: days, changes: diffPlans(days, after, input.nowMs) };
}
