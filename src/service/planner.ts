// The plan of a site as it is kept: a week from today on, with everything that it was made from.

import { hash } from 'node:crypto';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import { summariseDays } from '#core/plan/plan-summary.ts';
import type { Site } from '#core/site/site.ts';
import { type WorkingDay, workingDayAt } from '#core/site/working-day.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { Planner } from '#jobs/deps.ts';
import { builtSite } from '#memory/built-sites.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { SiteState } from '#memory/site-state.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { PlanBasis } from '#store/plan-record.ts';
import type { CalendarShelf } from './calendar-shelf.ts';

export const KEPT_DAYS = 7;

export function createPlanner(calendars: CalendarShelf, program: string): Planner {
  const todays = new WeakMap<Site, WorkingDay & { readonly atMs: number }>();
  const dateAt = (site: Site, nowMs: number): LocalDate => {
    const known = todays.get(site);
    if (known && known.atMs <= nowMs && nowMs < known.untilMs) return known.date;
    const today = workingDayAt(site.shifts, nowMs, site.timeZone);
    todays.set(site, { ...today, atMs: nowMs });
    return today.date;
  };
  return {
    firstDate(definition, state, nowMs) {
      const { held } = state;
      return held && dateAt(builtSite(definition, held.pointTimeZone).site, nowMs);
    },
    make(key, definition, state, nowMs) {
      const { held } = state;
      const basis = basisOf(definition, state);
      if (held === null || basis === null) return null;
      const { site, limits } = builtSite(definition, held.pointTimeZone);
      const firstDate = dateAt(site, nowMs);
      const calendar = calendars.get(site, firstDate, KEPT_DAYS);
      const { forecast, alerts } = held;
      const plan = makePlan({
        site,
        limits,
        forecast,
        alerts,
        nowMs,
        firstDate,
        dayCount: KEPT_DAYS,
        calendar,
      });
      const record = {
        site: key,
        madeAtMs: nowMs,
        basis,
        firstDate,
        dayCount: KEPT_DAYS,
        goodUntilMs: Number.isFinite(plan.goodUntilMs) ? plan.goodUntilMs : null,
        answerHash: keptAnswerHash(plan, basis),
        program,
        summary: summariseDays(plan),
      };
      const { hash: of, bytes } = definition;
      return { record, days: record.summary, documents: [{ hash: of, kind: 'definition', bytes }] };
    },
  };
}

/** What an answer about a site is made from now; null where nothing is held, or alerts were never read. */
export function basisOf(definition: SiteDefinition, { held, alertsHash }: SiteState): PlanBasis | null {
  if (held === null || alertsHash === null) return null;
  return {
    definition: definition.hash,
    document: held.forecast.documentId,
    documentReceivedAtMs: held.forecast.fetchedAtMs,
    alerts: alertsHash,
    alertsFetchedAtMs: held.alerts.fetchedAtMs,
    pointTimeZone: held.pointTimeZone,
  };
}

/** Digest of the windows answer over all days of a kept plan, in US units and English. */
export function keptAnswerHash(plan: Plan, basis: PlanBasis): string {
  const span = { fromMs: plan.days[0]?.day.fromMs ?? 0, toMs: plan.days.at(-1)?.day.toMs ?? 0 };
  const reader = { units: 'us', language: 'en', timeZone: plan.site.timeZone, day: null } as const;
  const answer = windowsAnswer(plan, span, { reader, demo: false, madeFrom: basis });
  return hash('sha256', JSON.stringify(answer), 'hex');
}
