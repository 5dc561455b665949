// What of a plan is kept and compared with the next one: of each day the verdict, the times, what decides, and the windows.
// Plain data: it goes through JSON and comes back the same.

import type { Finding, Verdict } from '#core/rules/finding.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { cutWindows } from '#core/windows/find-windows.ts';
import type { DayPlan, Plan } from './plan.ts';

/** The times of a day, in the order in which they come. */
export const DAY_TIMES = ['lightUp', 'lightUpBy', 'lastCharge', 'burnedDown', 'coveredBy'] as const;
export type DayTime = (typeof DAY_TIMES)[number];

export interface DaySummary {
  readonly date: LocalDate;
  /** go where the day has a burn in it, whether or not the moment to light has passed. */
  readonly verdict: Verdict;
  readonly cannotSay: boolean;
  /** Epoch ms; null where the day has no go. */
  readonly times: Readonly<Record<DayTime, number>> | null;
  /**
   * What decides: on a go day what ends the charging, else what bars the day. Codes with what they speak of,
   * `over-limit windGust`, sorted, each once.
   */
  readonly reasons: readonly string[];
  /** Verdict, begin, end [epoch ms]; they tile the day's frame. */
  readonly windows: readonly (readonly [Verdict, number, number])[];
}

export const summariseDays = (plan: Plan): DaySummary[] =>
  plan.days.map((day) => ({
    date: day.day.date,
    verdict: day.times === null ? day.verdict : 'go',
    cannotSay: day.cannotSay,
    times: day.times && {
      lightUp: day.times.lightUpMs,
      lightUpBy: day.times.lightUpByMs,
      lastCharge: day.times.lastChargeMs,
      burnedDown: day.times.burnedDownMs,
      coveredBy: day.times.coveredByMs,
    },
    reasons: reasonsOf(plan, day),
    windows: cutWindows(plan.windows, day.frame).map((w) => [w.verdict, w.fromMs, w.toMs] as const),
  }));

function reasonsOf(plan: Plan, day: DayPlan): string[] {
  const { barredBy, moves } = day.wouldChange;
  const deciding = day.times === null ? barredBy.map(reasonName) : day.times.lastChargeCauses.map(reasonName);
  const lacking =
    day.times === null
      ? moves.map(({ score }) => `needs ${plan.scores[score.limitIndex]?.limit.element ?? ''}`)
      : [];
  return [...new Set([...deciding, ...lacking])].sort();
}

/** A finding's code and what it speaks of, without figures that change from hour to hour. */
export function reasonName(f: Finding): string {
  const figures = f.figures as Readonly<Record<string, unknown>>;
  const of = ['element', 'event', 'name', 'place', 'weather', 'clock'].map((key) => figures[key]);
  const said = of.find((value) => typeof value === 'string');
  return said === undefined ? f.code : `${f.code} ${said as string}`;
}
