// The whole pipeline on one page: forecast, limits and calendar in; windows and the three times of each day out.
// Read this first. Pure: no clock, no I/O; the same input gives the same plan.

import { findAll } from '#core/rules/all.ts';
import { CLOCK_SKEW_MIN } from '#core/rules/forecast-quality.ts';
import type { LimitSet } from '#core/score/limit.ts';
import { scoreAll } from '#core/score/score-hours.ts';
import { derive } from '#core/series/derive.ts';
import type { Forecast } from '#core/series/forecast.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import { makeCalendar, type SiteCalendar } from '#core/site/calendar.ts';
import { putOutMs, type Site } from '#core/site/site.ts';
import { addDays, type LocalDate } from '#core/units/local-time.ts';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import { findWindows } from '#core/windows/find-windows.ts';
import { momentsOfChange } from './moments-of-change.ts';
import type { Plan } from './plan.ts';
import { planDays } from './plan-day.ts';

export interface PlanInput {
  readonly site: Site;
  readonly limits: LimitSet;
  readonly forecast: Forecast;
  /** Null where alerts were never read; that alone is a hold. */
  readonly alerts: AlertsSeen | null;
  /** The moment as of which is judged. */
  readonly nowMs: number;
  /** First local date wanted, and how many. */
  readonly firstDate: LocalDate;
  readonly dayCount: number;
  /** A calendar made before with `planCalendar` for the same dates; made here where it is not given. */
  readonly calendar?: SiteCalendar;
}

/** A day before the days wanted is judged too, so that a shift over midnight and a run that began earlier are seen. */
const DAYS_BEFORE = 1;

/** And after them as many as a burn-down may look ahead into, so that no rule is blind at the edge. */
const daysAfter = (site: Site): number =>
  Math.min(7, Math.max(1, Math.ceil(putOutMs(site.burn) / DAY_MS) || 1));

/** The calendar that a plan of these dates needs; it depends on no forecast. */
export const planCalendar = (site: Site, firstDate: LocalDate, dayCount: number): SiteCalendar =>
  makeCalendar(site, addDays(firstDate, -DAYS_BEFORE), DAYS_BEFORE + dayCount + daysAfter(site));

export function makePlan(input: PlanInput): Plan {
  const { site, limits, forecast, alerts, nowMs } = input;
  const calendar = input.calendar ?? planCalendar(site, input.firstDate, input.dayCount);
  if (calendar.days[DAYS_BEFORE]?.date !== input.firstDate) {
    throw new RangeError(`a calendar from ${calendar.days[0]?.date} for a plan from ${input.firstDate}`);
  }
  const series = derive(forecast.series, {
    gustFactor: site.gustFactor,
    wanted: new Set(limits.elements.map((limit) => limit.element)),
  });
  const scores = scoreAll(series, limits.elements);
  const context = { site, limits, nowMs, calendar, forecast, series, scores, alerts };
  const findings = findAll(context);
  const windows = findWindows(findings, calendar.span);
  const wanted = calendar.days.slice(DAYS_BEFORE, DAYS_BEFORE + input.dayCount);
  const days = planDays(context, windows, findings, wanted);
  const changes = momentsOfChange(site.burn, windows, days);
  const goodUntilMs = goodUntil(input, changes.verdictsMs);
  return {
    site,
    limits,
    nowMs,
    calendar,
    forecast,
    alertsFetchedAtMs: alerts?.fetchedAtMs ?? null,
    series,
    scores,
    findings,
    windows,
    days,
    goodUntilMs,
    standsUntilMs: firstAfter(nowMs, [goodUntilMs, ...changes.standingsMs]),
  };
}

const AGE_STEP_MIN = 15;

const firstAfter = (nowMs: number, moments: readonly number[]): number =>
  Math.min(...moments.filter((ms) => ms > nowMs), Number.POSITIVE_INFINITY);

/** The next moment at which an age passes a threshold, or a verdict turns: the plan is another then. */
function goodUntil({ site, forecast, alerts, nowMs }: PlanInput, verdictsMs: readonly number[]): number {
  const moments = [...verdictsMs];
  if (forecast.issuedAtMs !== null) {
    const { warnAfterMin, holdAfterMin } = site.quality;
    for (const min of [-CLOCK_SKEW_MIN, 0, warnAfterMin, holdAfterMin]) {
      moments.push(forecast.issuedAtMs + min * MINUTE_MS);
    }
    // An old forecast is told with its age, which must not grow old itself.
    if (nowMs >= forecast.issuedAtMs + warnAfterMin * MINUTE_MS)
      moments.push(nowMs + AGE_STEP_MIN * MINUTE_MS);
  }
  if (alerts !== null) {
    for (const min of [-CLOCK_SKEW_MIN, site.quality.alertsHoldAfterMin]) {
      moments.push(alerts.fetchedAtMs + min * MINUTE_MS);
    }
  }
  return firstAfter(nowMs, moments);
}
