// What is counted, sorted and filtered by, of thousands of sites: the marks of their days as the pages show them.

import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { msOf } from '#publish/page/moments.ts';
import { asOfMs, type Mark, standingOf } from '#publish/page/standing.ts';
import type { ForecastState, PlanAnswer } from '#publish/wire.ts';
import type { SiteRow } from './site-row.ts';

export interface DayDigest {
  readonly date: string;
  readonly mark: Mark;
  readonly coveredByMs: number | null;
  /** To be held against what was told; windows and reasons are not in it. */
  readonly summary: DaySummary;
}

export interface SiteDigest {
  readonly today: DayDigest | null;
  readonly tomorrow: DayDigest | null;
  /** Of the plan at this moment; null where nobody can say. */
  readonly nowVerdict: Verdict | null;
}

export function digestOf({ now, today, tomorrow }: SiteRow, forecast: ForecastState): SiteDigest {
  const day = (plan: PlanAnswer | null, isToday: boolean): DayDigest | null =>
    plan && {
      date: plan.day,
      mark: standingOf(plan, forecast, asOfMs(plan), isToday ? now : undefined).mark,
      coveredByMs: plan.coveredBy === null ? null : msOf(plan.coveredBy),
      summary: summaryOf(plan),
    };
  return { today: day(today, true), tomorrow: day(tomorrow, false), nowVerdict: now?.verdict ?? null };
}

function summaryOf(plan: PlanAnswer): DaySummary {
  const { day: date, cannotSay, lightUp, lightUpBy, lastCharge, burnedDown, coveredBy } = plan;
  const isBurn =
    lightUp !== null &&
    lightUpBy !== null &&
    lastCharge !== null &&
    burnedDown !== null &&
    coveredBy !== null;
  const times = isBurn
    ? {
        lightUp: msOf(lightUp),
        lightUpBy: msOf(lightUpBy),
        lastCharge: msOf(lastCharge),
        burnedDown: msOf(burnedDown),
        coveredBy: msOf(coveredBy),
      }
    : null;
  const endless = ['hold', Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
  return {
    date,
    verdict: times === null ? plan.verdict : 'go',
    cannotSay,
    times,
    reasons: [],
    windows: [endless],
  };
}
