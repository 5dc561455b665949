// Past days from the store: plans as they were made, and what stood at a moment, made again from documents by content.

import type { Config } from '#config/schema.ts';
import { dayTextTimes } from '#config/watch.ts';
import { DAY_TEXT_TIMES } from '#core/notices/day-texts.ts';
import { diffPlans } from '#core/plan/diff-plans.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import { DAY_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { HistoryDesk, PlanKnown, PlanMade, Rebuilt } from '#publish/history-desk.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { PlanRecord } from '#store/plan-record.ts';
import type { Store } from '#store/store.ts';
import { KEPT_DAYS, keptAnswerHash } from './planner.ts';
import { rebuildPlan } from './rebuild.ts';

export interface HistoryDeskDeps {
  readonly store: Pick<Store, 'plans' | 'documents'>;
  readonly mirror: Pick<Mirror, 'book'>;
  readonly source: Pick<GridSource, 'read'>;
  readonly program: string;
  readonly config: Pick<Config, 'store'>;
}

/** More than a plan every ten minutes for a week. */
const MOST_PLANS = 1200;

export function createHistoryDesk(deps: HistoryDeskDeps): HistoryDesk {
  const { store, mirror, program, config } = deps;
  const { keepPlansDays, keepBurnsDays, keepObservationsDays } = config.store;
  return {
    keptDays: { plans: keepPlansDays, burns: keepBurnsDays, observations: keepObservationsDays },
    program,
    async plansOf(siteKey, date, untilMs) {
      const fromMs = untilMs - (KEPT_DAYS + 1) * DAY_MS;
      const all = await store.plans.within(siteKey, fromMs, untilMs, MOST_PLANS);
      const made: PlanMade[] = [];
      for (const record of all) {
        const day = dayIn(record, date);
        if (day === null) continue;
        const before = made.at(-1)?.day;
        const changes = before === undefined ? null : diffPlans([before], [day], record.madeAtMs);
        const { planId, madeAtMs, cause, basis } = record;
        const from = { document: basis.document, receivedAtMs: basis.documentReceivedAtMs };
        made.push({ planId, madeAtMs, cause, ...from, program: record.program, day, changes });
      }
      return made;
    },
    async knownAt(siteKey, date, atMs) {
      const record = await store.plans.at(siteKey, atMs);
      const day = record && dayIn(record, date);
      if (record === null || day === null) return null;
      const { planId, madeAtMs } = record;
      return { planId, madeAtMs, program: record.program, day, ...(await rebuilt(deps, record, date, atMs)) };
    },
    dawnOf(siteKey) {
      const texts = mirror.book().sites.get(siteKey)?.fields.texts;
      return dayTextTimes(texts).dawn ?? DAY_TEXT_TIMES.dawn ?? '05:00';
    },
  };
}

const dayIn = ({ summary }: PlanRecord, date: string): DaySummary | null =>
  (summary as readonly DaySummary[]).find((day) => day.date === date) ?? null;

/** Twice: as it was made, to be held against the digest of its answer; and as it stood at the moment. */
async function rebuilt(
  { store, source }: HistoryDeskDeps,
  { basis, madeAtMs, firstDate, dayCount, answerHash }: PlanRecord,
  date: string,
  atMs: number,
): Promise<Pick<PlanKnown, 'rebuilt' | 'plan'>> {
  try {
    const made = { basis, nowMs: madeAtMs, firstDate, dayCount };
    const whole = await rebuildPlan(store.documents, source, made);
    const state: Rebuilt = keptAnswerHash(whole, basis) === answerHash ? 'same-bytes' : 'other-bytes';
    // The same list of alerts, read again since, makes no other plan: its age then is taken to be what it was.
    const readAtMs = basis.alertsFetchedAtMs + Math.max(0, atMs - madeAtMs);
    const then = { ...basis, alertsFetchedAtMs: readAtMs };
    const asked = { basis: then, nowMs: atMs, firstDate: date, dayCount: 1 };
    return { rebuilt: state, plan: await rebuildPlan(store.documents, source, asked) };
  } catch (fault) {
    if (fault instanceof ServiceError && fault.code === 'not_kept')
      return { rebuilt: 'not-kept', plan: null };
    throw fault;
  }
}
