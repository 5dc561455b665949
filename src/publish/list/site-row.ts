// What a list says of a site's plan: of this moment, of today and of tomorrow.

import { windowAt } from '#core/windows/find-windows.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import type { Wanted } from '#publish/answers/head.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { NowWindow } from '#publish/page/standing.ts';
import type { PlanAnswer } from '#publish/wire.ts';
import type { Asker, Made } from './remembered.ts';

export interface SiteRow {
  /** The window of this moment. */
  readonly now: NowWindow | null;
  readonly today: PlanAnswer | null;
  readonly tomorrow: PlanAnswer | null;
}

export const NO_ROW: SiteRow = { now: null, today: null, tomorrow: null };

/** Nothing where there is no forecast, which the page says. */
export function makeSiteRow(desk: PlanDesk, site: DeskSite, asker: Asker, nowMs: number): Made<SiteRow> {
  const { key, state, timeZone, today } = site;
  if (state.held === null || timeZone === null || today === null)
    return { value: NO_ROW, goodUntilMs: nowMs };
  const { units, language } = desk.preferences;
  const wanted = (day: string): Wanted => ({
    reader: { units: asker.units ?? units, language: asker.lang ?? language, timeZone, day },
    demo: desk.demo,
    madeFrom: site.madeFrom,
  });
  const plan = desk.plan(key, today.date, 2);
  const [first, second] = plan.days.map((day) => dayPlanAnswer(plan, day, wanted(day.day.date)));
  const window = windowAt(plan.windows, nowMs);
  return {
    value: {
      now: window && (windowsAnswer(plan, window, wanted(today.date)).windows[0] ?? null),
      today: first ?? null,
      tomorrow: second ?? null,
    },
    goodUntilMs: Math.min(plan.standsUntilMs, today.untilMs, window?.toMs ?? nowMs),
  };
}
