// The three answers about a site, made from a plan and finished as bytes.

import type { DayPlan, Plan } from '#core/plan/plan.ts';
import type { WorkingDay } from '#core/site/working-day.ts';
import { ServiceError } from '#errors.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import type { MadeFrom, Wanted } from '#publish/answers/head.ts';
import { hoursAnswer } from '#publish/answers/hours.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { type Answer, makeAnswer } from './answer-cache.ts';
import { askedDay, askedSpan, type SpanQuery } from './query.ts';

export const JSON_TYPE = 'application/json; charset=utf-8';

export type Kind = 'windows' | 'hours' | 'plan';

/** Throws ServiceError `no_forecast`, `bad_query`. */
export function answerAbout(desk: PlanDesk, site: DeskSite, kind: Kind, query: SpanQuery): Answer {
  const { timeZone, today } = placedOf(site);
  const wanted = (day: string | null): Wanted => wantedBy(desk, query, timeZone, day, site.madeFrom);
  // Today and tomorrow become another date at midnight, or when a night shift ends.
  const relative = query.day === undefined || query.day === 'today' || query.day === 'tomorrow';
  const finish = (plan: Plan, body: object) => {
    const goodUntilMs = Math.min(plan.standsUntilMs, relative ? today.untilMs : Number.POSITIVE_INFINITY);
    const { version } = site.state;
    return makeAnswer(JSON.stringify(body), JSON_TYPE, { version, madeAtMs: plan.nowMs, goodUntilMs });
  };
  if (kind === 'plan') {
    const date = askedDay(query.day, today.date);
    const plan = desk.plan(site.key, date, 1);
    const day = theDay(plan);
    return finish(plan, dayPlanAnswer(plan, day, wanted(date)));
  }
  const { span, firstDate, dayCount } = askedSpan(query, today.date, timeZone);
  const plan = desk.plan(site.key, firstDate, dayCount);
  const answer = kind === 'windows' ? windowsAnswer : hoursAnswer;
  return finish(plan, answer(plan, span, wanted(dayCount === 1 ? firstDate : null)));
}

export function wantedBy(
  desk: PlanDesk,
  query: { units?: 'us' | 'si' | undefined; lang?: 'en' | 'es' | undefined },
  timeZone: string,
  day: string | null,
  madeFrom: MadeFrom | null,
): Wanted {
  const { units, language } = desk.preferences;
  return {
    reader: { units: query.units ?? units, language: query.lang ?? language, timeZone, day },
    demo: desk.demo,
    madeFrom,
  };
}

/** Zone and today of a site; without a zone no forecast has been pulled yet. */
export function placedOf(site: DeskSite): { timeZone: string; today: WorkingDay } {
  const { timeZone, today, state } = site;
  if (timeZone !== null && today !== null && state.held !== null) return { timeZone, today };
  const why = state.fault ? `: ${state.fault.message}` : ' yet; the first pull is under way';
  throw new ServiceError('no_forecast', `no forecast for ${site.id}${why}`, { retryable: true });
}

export function theDay(plan: Plan): DayPlan {
  const day = plan.days[0];
  if (!day) throw new ServiceError('internal', 'a plan without a day');
  return day;
}
