// Plan inputs with everything in order, to be spoiled by one change at a time.

import { makePlan, type PlanInput, planCalendar } from '#core/plan/make-plan.ts';
import type { DayPlan, Plan } from '#core/plan/plan.ts';
import type { Verdict } from '#core/rules/finding.ts';
import type { RuleContext } from '#core/rules/rule.ts';
import { scoreHours } from '#core/score/score-hours.ts';
import { derive } from '#core/series/derive.ts';
import type { Site } from '#core/site/site.ts';
import { addDays, startOfDayMs } from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { alertsSeen } from './alerts.ts';
import { FAIR, forecastOf, type Sketch, seriesOf } from './forecast.ts';
import { PLAIN_LIMITS } from './limits.ts';
import { PLAIN_SITE } from './site.ts';
import { clockOf } from './time.ts';

export interface InputText extends Partial<Omit<PlanInput, 'site'>> {
  readonly site?: Site;
  /** Laid over fair weather. */
  readonly weather?: Sketch;
}

/** Monday 2026-03-02 at the plain site, judged at 06:00, fair weather from the day before to five days on. */
export function inputOf(text: InputText = {}): PlanInput {
  const { weather = {}, site = PLAIN_SITE, ...given } = text;
  const firstDate = given.firstDate ?? '2026-03-02';
  const nowMs = given.nowMs ?? startOfDayMs(firstDate, site.timeZone) + 6 * HOUR_MS;
  const startMs = Math.floor(startOfDayMs(addDays(firstDate, -1), site.timeZone) / HOUR_MS) * HOUR_MS;
  const series = seriesOf(startMs, 6 * 24, { ...FAIR, ...weather });
  return {
    site,
    limits: PLAIN_LIMITS,
    forecast: forecastOf(series, nowMs - HOUR_MS),
    alerts: alertsSeen(nowMs),
    dayCount: 1,
    ...given,
    firstDate,
    nowMs,
  };
}

/** What the rules are given: the same steps as in make-plan. */
export function contextOf(input: PlanInput): RuleContext {
  const { site, limits, forecast, alerts, nowMs } = input;
  const calendar = input.calendar ?? planCalendar(site, input.firstDate, input.dayCount);
  const series = derive(forecast.series, { gustFactor: site.gustFactor });
  const scores = limits.elements.map((limit) => scoreHours(series.columns[limit.element], limit));
  return { site, limits, nowMs, calendar, forecast, series, scores, alerts };
}

export function firstDay(plan: Plan): DayPlan {
  const day = plan.days[0];
  if (!day) throw new Error('the plan has no day');
  return day;
}

export const verdictAt = (plan: Plan, ms: number): Verdict => windowAt(plan.windows, ms)?.verdict ?? 'hold';

/** True where some instant of the plan's own days is go. */
export const hasGo = (plan: Plan): boolean =>
  plan.days.some(
    (d) =>
      d.verdict === 'go' ||
      d.times !== null ||
      plan.windows.some((w) => w.verdict === 'go' && w.fromMs < d.frame.toMs && w.toMs > d.frame.fromMs),
  );

/** The three times on the site's clock. */
export function threeTimes(input: PlanInput): string[] | null {
  const plan = makePlan(input);
  const { times } = firstDay(plan);
  if (times === null) return null;
  return [times.lightUpMs, times.lastChargeMs, times.coveredByMs].map((ms) =>
    clockOf(ms, plan.site.timeZone),
  );
}

/** The codes of findings, each once, in alphabetical order. */
export const codesOf = (findings: readonly { readonly code: string }[]): string[] =>
  [...new Set(findings.map((f) => f.code))].sort();
