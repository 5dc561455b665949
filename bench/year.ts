// A year of a store that has served all the while: a forecast document in every cell and hour, made from recorded ones; the
// plans of every site as often as on usual days, with their own summaries; with every plan an event.

import { hash } from 'node:crypto';
import { type LoggedEvent, type NewEvent, organisationOf } from '#core/events/event.ts';
import { DAY_MS, HOUR_MS } from '#core/units/time.ts';
import type { PlanRecord } from '#store/plan-record.ts';
import type { Store } from '#store/store.ts';
import { ALERTS, DEFINITION } from './commits.ts';
import { datedDocument } from './dated-document.ts';
import { note } from './measure.ts';
import { cellAt, type NationSize } from './nation.ts';
import type { UsualDays } from './usual-days.ts';

export const YEAR_DAYS = 365;

/** Writes the year that ends with `untilMs`, day by day and cell by cell. */
export async function fillYear(
  store: Store,
  { siteCount, cellCount }: NationSize,
  usual: UsualDays,
  untilMs: number,
): Promise<void> {
  await store.commit({ documents: [DEFINITION, ALERTS] });
  const bySite = [...Map.groupBy(usual.plans, (plan) => plan.site).values()];
  for (let day = 0; day < YEAR_DAYS; day += 1) {
    if (day % 30 === 0) note(`a year of data: ${day} of ${YEAR_DAYS} days`);
    const fromMs = untilMs - (YEAR_DAYS - day) * DAY_MS;
    for (let cell = 0; cell < cellCount; cell += 1) {
      const documents = documentsOf(cell, fromMs);
      const sites = Array.from({ length: siteCount }, (_, i) => i).filter((i) => i % cellCount === cell);
      const plans = sites.flatMap((site) => {
        const alike = bySite[site % bySite.length] ?? [];
        return alike.map((plan) => planOf(plan, { site, fromMs, usual, documents }));
      });
      const events = plans.map((plan, i) => eventOf(plan, usual.events[i % usual.events.length]));
      await store.commit({ documents, plans, events });
    }
  }
}

interface DatedBytes {
  readonly hash: string;
  readonly kind: 'gridpoint';
  readonly bytes: Uint8Array;
}

const documentsOf = (cell: number, fromMs: number): DatedBytes[] =>
  Array.from({ length: 24 }, (_, hour) => {
    const { bytes } = datedDocument(cellAt(cell), fromMs + hour * HOUR_MS, cell + hour);
    return { hash: hash('sha256', bytes, 'hex'), kind: 'gridpoint', bytes };
  });

interface OnDay {
  readonly site: number;
  readonly fromMs: number;
  readonly usual: UsualDays;
  readonly documents: readonly DatedBytes[];
}

/** A usual plan on another day, of another site. */
function planOf(plan: PlanRecord, { site, fromMs, usual, documents }: OnDay): PlanRecord {
  const moveMs = fromMs - usual.fromMs;
  const madeAtMs = plan.madeAtMs + moveMs;
  const document = documents[Math.floor((plan.madeAtMs - usual.fromMs) / HOUR_MS) % 24];
  return {
    ...plan,
    site: `own/site-${site}`,
    planId: hash('sha256', `${site} ${plan.planId} ${fromMs}`, 'hex').slice(0, 32),
    madeAtMs,
    basis: {
      ...plan.basis,
      definition: DEFINITION.hash,
      document: document?.hash ?? '',
      documentReceivedAtMs: madeAtMs,
      alerts: ALERTS.hash,
      alertsFetchedAtMs: madeAtMs,
    },
    goodUntilMs: plan.goodUntilMs === null ? null : plan.goodUntilMs + moveMs,
    answerHash: hash('sha256', `${site} ${plan.answerHash} ${fromMs}`, 'hex'),
  };
}

const eventOf = (plan: PlanRecord, like: LoggedEvent | undefined): NewEvent => ({
  organisation: organisationOf(plan.site),
  site: plan.site,
  kind: like?.kind ?? 'window-changed',
  subject: plan.planId,
  atMs: plan.madeAtMs,
  validUntilMs: plan.goodUntilMs,
  data: like?.data ?? [],
});
