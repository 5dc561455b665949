// What the page of a day is made from that stands as long as the answers of the API do: remembered for whoever asks next. What
// tells of this moment is never in it.

import type { Plan } from '#core/plan/plan.ts';
import { placesWithinReach } from '#core/rules/protected-places.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { hoursAnswer } from '#publish/answers/hours.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import { type Asker, createRemembered, type Made } from '#publish/list/remembered.ts';
import type { SiteView } from '#publish/page/site-view.ts';
import { askedDay } from './query.ts';
import { placedOf, theDay, wantedBy } from './site-answers.ts';

export interface DayParts extends Pick<SiteView, 'plan' | 'windows' | 'hours' | 'week' | 'keepOff'> {
  readonly asked: LocalDate;
  readonly today: LocalDate;
  /** From today on. */
  readonly weekPlan: Plan;
}

/** Days shown below the day asked for. */
const WEEK_DAYS = 7;
/** Of a third of a megabyte each. */
const MOST_DAYS = 128;

/** Throws ServiceError `no_forecast`, `bad_query`. */
export const createDayParts = (desk: PlanDesk): ((site: DeskSite, asker: Asker) => DayParts) =>
  createRemembered<DayParts>(desk, MOST_DAYS, (...asked) => make(desk, ...asked));

function make(desk: PlanDesk, site: DeskSite, asker: Asker, nowMs: number): Made<DayParts> {
  const { timeZone, today: working } = placedOf(site);
  const today = working.date;
  const asked = askedDay(asker.day, today);
  const plan = desk.plan(site.key, asked, 1);
  const weekPlan = desk.plan(site.key, today, WEEK_DAYS);
  const wanted = (day: string) => wantedBy(desk, asker, timeZone, day, site.madeFrom);
  const day = theDay(plan);
  // A night shift goes on after midnight, and its marks with it.
  const shown = { fromMs: day.day.fromMs, toMs: Math.max(day.day.toMs, day.frame.toMs) };
  const value = {
    ...{ asked, today, weekPlan },
    plan: dayPlanAnswer(plan, day, wanted(asked)),
    windows: windowsAnswer(plan, shown, wanted(asked)),
    hours: hoursAnswer(plan, shown, wanted(asked)),
    week: weekPlan.days.map((d) => dayPlanAnswer(weekPlan, d, wanted(d.day.date))),
    keepOff: placesWithinReach(plan.site).map((p) => {
      return { name: p.name, fromDeg: p.fromBearingDeg, toDeg: p.toBearingDeg };
    }),
  };
  const toldUntilMs = tellsAge(value) ? nowMs + MINUTE_MS : Number.POSITIVE_INFINITY;
  const standsUntilMs = Math.min(plan.standsUntilMs, weekPlan.standsUntilMs);
  return { value, goodUntilMs: Math.min(standsUntilMs, working.untilMs, toldUntilMs) };
}

/** Of what is old or was not read of late the reasons say how old it is: in minutes, so that they stand for one. */
const tellsAge = ({ windows, week }: Pick<DayParts, 'windows' | 'week'>): boolean =>
  JSON.stringify([windows, week]).includes('"ageMin":');
