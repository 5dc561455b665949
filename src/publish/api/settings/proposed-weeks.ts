// Plans of a week before and after a change → the days as the page compares them.

import type { DayPlan, Plan } from '#core/plan/plan.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import type { Wanted } from '#publish/answers/head.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import { forecastStateOf } from '#publish/api/forecast-state.ts';
import type { PlanDesk } from '#publish/desk.ts';
import type { SiteWeek, WeekDay, Weeks } from '#publish/page/settings/week-change.ts';
import type { ProposedWeek, ProposedWeeks } from '#publish/settings-desk.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';

interface Reader {
  readonly language: Language;
  readonly units: UnitSystem;
}

export const weeksOf = (desk: PlanDesk, { sites, more }: ProposedWeeks, reader: Reader): Weeks => ({
  sites: sites.map((site) => siteWeek(desk, site, reader)),
  more,
});

function siteWeek(desk: PlanDesk, { key, name, before, after, why }: ProposedWeek, reader: Reader): SiteWeek {
  const nowMs = desk.nowMs();
  const forecast = before === null ? null : forecastStateOf(desk.site(key), nowMs);
  const days = after === null ? [] : daysOf(desk, before, after, reader);
  return { name, why, forecast, nowMs, days };
}

function daysOf(desk: PlanDesk, before: Plan | null, after: Plan, reader: Reader): SiteWeek['days'] {
  const known = new Map(before === null ? [] : before.days.map((day) => [day.day.date, day] as const));
  return after.days.map((day) => {
    const old = known.get(day.day.date);
    const was = before === null || old === undefined ? null : weekDay(desk, before, old, reader);
    const is = weekDay(desk, after, day, reader);
    return { before: was, after: is, same: was !== null && gistOf(was) === gistOf(is) };
  });
}

function weekDay(desk: PlanDesk, plan: Plan, day: DayPlan, { language, units }: Reader): WeekDay {
  const { date, fromMs, toMs } = day.day;
  const reader = { language, units, timeZone: plan.site.timeZone, day: date };
  const wanted: Wanted = { reader, demo: desk.demo, madeFrom: null };
  return {
    plan: dayPlanAnswer(plan, day, wanted),
    windows: windowsAnswer(plan, { fromMs, toMs }, wanted).windows,
    ...{ fromMs, toMs },
    now: date === plan.days[0]?.day.date ? nowWindow(plan, wanted) : undefined,
  };
}

function nowWindow(plan: Plan, wanted: Wanted): WeekDay['now'] {
  const window = windowAt(plan.windows, plan.nowMs);
  return window === null || window === undefined
    ? null
    : (windowsAnswer(plan, window, wanted).windows[0] ?? null);
}

/** What somebody would do otherwise, or is told otherwise. */
function gistOf({ plan, windows }: WeekDay): string {
  const { verdict, standing, cannotSay, lightUp, lightUpBy, lastCharge, burnedDown, coveredBy, pauses } =
    plan;
  const spans = windows.map((w) => [w.verdict, w.from, w.to]);
  const held = pauses.map(({ from, to }) => [from, to]);
  return JSON.stringify([
    verdict,
    standing,
    cannotSay,
    lightUp,
    lightUpBy,
    lastCharge,
    burnedDown,
    coveredBy,
    held,
    spans,
  ]);
}
