// What the list of sites says of each site's plan, made once for a forecast and remembered while it stands, as the answers
// of the API are.

import { windowAt } from '#core/windows/find-windows.ts';
import { dayPlanAnswer } from '#publish/answers/day-plan.ts';
import { windowsAnswer } from '#publish/answers/windows.ts';
import type { DeskSite, PlanDesk } from '#publish/desk.ts';
import type { HomeView } from '#publish/page/home-page.ts';
import type { ReaderQuery } from './query.ts';
import { wantedBy } from './site-answers.ts';

export type HomeRow = Pick<HomeView['sites'][number], 'now' | 'today' | 'tomorrow'>;

interface Kept {
  readonly row: HomeRow;
  readonly version: number;
  readonly madeAtMs: number;
  readonly goodUntilMs: number;
}

/** Some pages of them; the longest kept go first. */
const MOST_ROWS = 1000;

export function createHomeRows(desk: PlanDesk): (site: DeskSite, query: ReaderQuery) => HomeRow {
  const rows = new Map<string, Kept>();
  return (site, query) => {
    const key = `${site.key} ${query.units ?? ''} ${query.lang ?? ''}`;
    const nowMs = desk.nowMs();
    const kept = rows.get(key);
    const isGood =
      kept?.version === desk.versionOf(site.key) && kept.madeAtMs <= nowMs && nowMs < kept.goodUntilMs;
    if (kept && isGood) return kept.row;
    const made = makeRow(desk, site, query, nowMs);
    rows.delete(key);
    rows.set(key, made);
    if (rows.size > MOST_ROWS) rows.delete(rows.keys().next().value ?? '');
    return made.row;
  };
}

/** Nothing where there is no forecast, which the page says. */
function makeRow(desk: PlanDesk, site: DeskSite, query: ReaderQuery, nowMs: number): Kept {
  const { key, state, timeZone, today } = site;
  const { version } = state;
  if (state.held === null || timeZone === null || today === null) {
    const row = { now: null, today: null, tomorrow: null };
    return { row, version, madeAtMs: nowMs, goodUntilMs: nowMs };
  }
  const wanted = (day: string) => wantedBy(desk, query, timeZone, day, site.madeFrom);
  const plan = desk.plan(key, today.date, 2);
  const [first, second] = plan.days.map((day) => dayPlanAnswer(plan, day, wanted(day.day.date)));
  const ofToday = desk.plan(key, today.date, 1);
  const window = windowAt(ofToday.windows, nowMs);
  const now = window && (windowsAnswer(ofToday, window, wanted(today.date)).windows[0] ?? null);
  return {
    row: { now, today: first ?? null, tomorrow: second ?? null },
    version,
    madeAtMs: nowMs,
    goodUntilMs: Math.min(plan.standsUntilMs, ofToday.standsUntilMs, today.untilMs, window?.toMs ?? nowMs),
  };
}
