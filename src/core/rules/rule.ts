// A rule reads one context and says what it finds. Pure: no clock, no I/O; the same context gives the same findings.

import type { LimitSet } from '#core/score/limit.ts';
import type { LimitScores } from '#core/score/score-hours.ts';
import type { Forecast } from '#core/series/forecast.ts';
import type { HourlySeries } from '#core/series/hourly-series.ts';
import { type AlertsSeen, plainEventName } from '#core/series/official-alert.ts';
import type { SiteCalendar } from '#core/site/calendar.ts';
import type { Site } from '#core/site/site.ts';
import { HOUR_MS, type Span } from '#core/units/time.ts';
import { type Finding, type Verdict, worseOf } from './finding.ts';

export interface RuleContext {
  readonly site: Site;
  readonly limits: LimitSet;
  /** The moment as of which is judged. */
  readonly nowMs: number;
  readonly calendar: SiteCalendar;
  readonly forecast: Forecast;
  /** The forecast's hours with what could be derived. */
  readonly series: HourlySeries;
  readonly scores: readonly LimitScores[];
  /** Null where alerts were never read. */
  readonly alerts: AlertsSeen | null;
}

export type Rule = (context: RuleContext) => readonly Finding[];

/** A rule that builds on what the first ones found. */
export type AfterRule = (context: RuleContext, found: readonly Finding[]) => readonly Finding[];

/** Span of hours `from` … `to` (exclusive) of the series. */
export const hoursSpan = (series: HourlySeries, from: number, to: number): Span => ({
  fromMs: series.startMs + from * HOUR_MS,
  toMs: series.startMs + to * HOUR_MS,
});

/** Hours of the series that touch the calendar's span: first, and one past the last. */
export function judgedHours({ series, calendar }: RuleContext): { first: number; beyond: number } {
  const first = Math.max(0, Math.floor((calendar.span.fromMs - series.startMs) / HOUR_MS));
  const beyond = Math.min(series.hours, Math.ceil((calendar.span.toMs - series.startMs) / HOUR_MS));
  return { first, beyond: Math.max(first, beyond) };
}

/** When a limit applies: null for always, else the spans of day or night. */
export function spansOfWhen(
  when: 'always' | 'day' | 'night',
  calendar: SiteCalendar,
): readonly Span[] | null {
  if (when === 'always') return null;
  return when === 'day' ? calendar.daylight : calendar.night;
}

/**
 * What an official event means for the site. Case and spacing of the name do not count; of two spellings the worse
 * verdict holds; an event that the site's table does not list is advice.
 */
export function verdictOfEvent(table: Site['alertVerdicts'], event: string): Verdict {
  const plain = plainEventName(event);
  let verdict: Verdict = 'go';
  for (const [name, listed] of Object.entries(table)) {
    if (plainEventName(name) === plain) verdict = worseOf(verdict, listed);
  }
  return verdict;
}
