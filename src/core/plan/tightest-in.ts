// The tightest limit over spans of time, counting only limits that apply there.

import { spansOfWhen } from '#core/rules/rule.ts';
import type { LimitScores } from '#core/score/score-hours.ts';
import { type HourScore, tightestOver } from '#core/score/tightest.ts';
import type { HourlySeries } from '#core/series/hourly-series.ts';
import type { SiteCalendar } from '#core/site/calendar.ts';
import { HOUR_MS, overlaps, type Span } from '#core/units/time.ts';

export interface ScoredCalendar {
  readonly series: HourlySeries;
  readonly scores: readonly LimitScores[];
  readonly calendar: SiteCalendar;
}

/** True where a limit applies in some part of an hour of the series. */
export function appliesIn(
  { series, scores, calendar }: ScoredCalendar,
  limitIndex: number,
  hour: number,
): boolean {
  const when = scores[limitIndex]?.limit.when ?? 'always';
  if (when === 'always') return true;
  const fromMs = series.startMs + hour * HOUR_MS;
  return spansOfWhen(when, calendar)?.some((w) => overlaps(w, { fromMs, toMs: fromMs + HOUR_MS })) ?? true;
}

/** The least room as a fraction over all hours that touch the spans; null where nothing has a value. */
export function tightestIn(scored: ScoredCalendar, spans: readonly Span[]): HourScore | null {
  const { series, scores } = scored;
  let tightest: HourScore | null = null;
  for (const span of spans) {
    const from = Math.floor((span.fromMs - series.startMs) / HOUR_MS);
    const to = Math.ceil((span.toMs - series.startMs) / HOUR_MS);
    const found = tightestOver(scores, from, to, (limit, hour) => appliesIn(scored, limit, hour));
    if (found && (tightest === null || found.roomFraction < tightest.roomFraction)) tightest = found;
  }
  return tightest;
}
