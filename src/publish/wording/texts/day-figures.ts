// What a day of a plan rests on, for its text: the nearest limit of a go, or what bars the day, and the wind at light-up.

import type { DayPlan, Plan } from '#core/plan/plan.ts';
import { SEVERITY } from '#core/rules/finding.ts';
import { limitFigures } from '#core/rules/limit-figures.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { DayFigures } from './text-request.ts';

export function dayFigures(plan: Plan, day: DayPlan): DayFigures {
  const { times, tightest, wouldChange } = day;
  const [barring] = [...wouldChange.barredBy].sort((a, b) => SEVERITY[b.verdict] - SEVERITY[a.verdict]);
  const score = times === null ? wouldChange.moves[0]?.score : tightest;
  return {
    limit: score && score.class !== 'missing' ? limitFigures(plan, score.limitIndex, score.hour) : null,
    finding: times === null ? (barring ?? null) : null,
    windFromDeg: times === null ? null : windAt(plan, times.lightUpMs),
  };
}

function windAt({ series }: Plan, ms: number): number | null {
  const hour = Math.floor((ms - series.startMs) / HOUR_MS);
  const value = series.columns.windDirection.values[hour] ?? Number.NaN;
  return Number.isNaN(value) ? null : value;
}
