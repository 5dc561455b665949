// A plan: a site over a run of days, with everything that answers need. Records only; make-plan.ts makes them.

import type { Finding, Verdict } from '#core/rules/finding.ts';
import type { LimitSet } from '#core/score/limit.ts';
import type { LimitScores } from '#core/score/score-hours.ts';
import type { HourScore } from '#core/score/tightest.ts';
import type { Forecast } from '#core/series/forecast.ts';
import type { HourlySeries } from '#core/series/hourly-series.ts';
import type { SiteCalendar } from '#core/site/calendar.ts';
import type { LocalDay } from '#core/site/local-day.ts';
import type { Site } from '#core/site/site.ts';
import type { Span } from '#core/units/time.ts';
import type { Window } from '#core/windows/find-windows.ts';

export interface DayPlan {
  readonly day: LocalDay;
  /** The time that counts for this date: the day, less a night shift's morning, plus its own shift past midnight. */
  readonly frame: Span;
  /**
   * go: there is still time to light. Once the burn has begun without: hold. Without a burn the verdict of most of the
   * working time that is left. A stop that lasts at the moment judged is stop in both cases.
   */
  readonly verdict: Verdict;
  readonly standing: Standing;
  /** True where the day is hold only because nobody can say. */
  readonly cannotSay: boolean;
  /** The three times and what leads to them; null where the day has no go. */
  readonly times: BurnTimesOfDay | null;
  readonly tightest: HourScore | null;
  readonly wouldChange: WouldChange;
}

/**
 * Where the day stands at the moment judged: no burn at all; before light-up; may light; too late to light but may charge;
 * in a pause of the burn; after the last charge.
 */
export type Standing = 'none' | 'ahead' | 'light' | 'charge' | 'pause' | 'over';

export interface BurnTimesOfDay {
  readonly warmUpMs: number;
  readonly lightUpMs: number;
  /** From this moment on it is too late to light: kindling would end after the last charge. */
  readonly lightUpByMs: number;
  readonly firstChargeMs: number;
  readonly lastChargeMs: number;
  readonly burnedDownMs: number;
  readonly coveredByMs: number;
  /** Holds between light-up and last charge: add no wood. */
  readonly pauses: readonly Window[];
  /** What held until light-up; empty where the day itself begins with go. */
  readonly lightUpCauses: readonly Finding[];
  /** What ends the charging. */
  readonly lastChargeCauses: readonly Finding[];
}

/** How far one value would have to move to change the verdict of its hour. */
export interface Move {
  readonly score: HourScore;
  /** Core unit, unsigned. */
  readonly moveBy: number;
  /** What the hour would become as far as this limit goes. */
  readonly towards: Verdict;
}

export interface WouldChange {
  /** A go: the move that would end it. No go: the moves that the nearest hour needs, all of them. */
  readonly moves: readonly Move[];
  /** Findings, other than limits, that bar the day whatever the values do. */
  readonly barredBy: readonly Finding[];
  /** The next window with another verdict, counted from now or from the light-up (a day without one: its beginning), whichever is later. */
  readonly next: {
    readonly atMs: number;
    readonly from: Verdict;
    readonly to: Verdict;
    readonly findings: readonly Finding[];
  } | null;
}

export interface Plan {
  readonly site: Site;
  readonly limits: LimitSet;
  readonly nowMs: number;
  readonly calendar: SiteCalendar;
  readonly forecast: Forecast;
  readonly alertsFetchedAtMs: number | null;
  readonly series: HourlySeries;
  readonly scores: readonly LimitScores[];
  readonly findings: readonly Finding[];
  readonly windows: readonly Window[];
  readonly days: readonly DayPlan[];
  /** Until when this plan holds; then an age passes a threshold, or a verdict turns. */
  readonly goodUntilMs: number;
  /** Until when it may be served without working it out anew: no later, and no later than where it stands. */
  readonly standsUntilMs: number;
}
