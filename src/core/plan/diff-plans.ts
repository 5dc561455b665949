// The plan before and the plan now → what somebody who knows the one must be told about the other. Only what still lies
// ahead counts: a time that has passed is no news.

import { SEVERITY, type Verdict } from '#core/rules/finding.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { DAY_TIMES, type DaySummary, type DayTime } from './plan-summary.ts';

/** worse: less may be done than was said. */
export type Tendency = 'worse' | 'better' | 'other';

export type PlanChange =
  | {
      readonly kind: 'verdict';
      readonly date: LocalDate;
      readonly from: Verdict;
      readonly to: Verdict;
      readonly tendency: Tendency;
    }
  | {
      readonly kind: 'time';
      readonly date: LocalDate;
      readonly time: DayTime;
      /** Epoch ms; null where the day had, or has, no such time. */
      readonly fromMs: number | null;
      readonly toMs: number | null;
      /** Signed: later is positive; null where one of the two is not there. */
      readonly movedMin: number | null;
      readonly tendency: Tendency;
    }
  | {
      readonly kind: 'windows';
      readonly date: LocalDate;
      /** What of each verdict is gained or lost ahead of now [min]. */
      readonly goMin: number;
      readonly holdMin: number;
      readonly stopMin: number;
      readonly tendency: Tendency;
    }
  | {
      readonly kind: 'reason';
      readonly date: LocalDate;
      readonly gone: readonly string[];
      readonly come: readonly string[];
      readonly tendency: Tendency;
    };

/** Days that only one of the two has are passed over: they have come into, or gone out of, sight. */
export function diffPlans(
  before: readonly DaySummary[],
  now: readonly DaySummary[],
  nowMs: number,
): PlanChange[] {
  const known = new Map(before.map((day) => [day.date, day]));
  return now.flatMap((day) => {
    const was = known.get(day.date);
    const endMs = day.windows.at(-1)?.[2] ?? Number.NEGATIVE_INFINITY;
    return was === undefined || endMs <= nowMs ? [] : diffDay(was, day, nowMs);
  });
}

function diffDay(was: DaySummary, day: DaySummary, nowMs: number): PlanChange[] {
  const { date } = day;
  const changes: PlanChange[] = [];
  if (was.verdict !== day.verdict) {
    const tendency = SEVERITY[day.verdict] > SEVERITY[was.verdict] ? 'worse' : 'better';
    changes.push({ kind: 'verdict', date, from: was.verdict, to: day.verdict, tendency });
  }
  for (const time of DAY_TIMES) {
    const change = diffTime(date, time, was.times?.[time] ?? null, day.times?.[time] ?? null, nowMs);
    if (change !== null) changes.push(change);
  }
  const windows = diffWindows(was, day, nowMs);
  if (windows !== null) changes.push(windows);
  const gone = was.reasons.filter((reason) => !day.reasons.includes(reason));
  const come = day.reasons.filter((reason) => !was.reasons.includes(reason));
  if (gone.length > 0 || come.length > 0)
    changes.push({ kind: 'reason', date, gone, come, tendency: 'other' });
  return changes;
}

/** An earlier light-up gives more, every other time gives more the later it is. */
function diffTime(
  date: LocalDate,
  time: DayTime,
  fromMs: number | null,
  toMs: number | null,
  nowMs: number,
): PlanChange | null {
  if (fromMs === toMs) return null;
  if ((fromMs ?? nowMs) < nowMs && (toMs ?? nowMs) < nowMs) return null;
  const movedMin = fromMs === null || toMs === null ? null : Math.round((toMs - fromMs) / MINUTE_MS);
  return { kind: 'time', date, time, fromMs, toMs, movedMin, tendency: tendencyOf(time, fromMs, toMs) };
}

function tendencyOf(time: DayTime, fromMs: number | null, toMs: number | null): Tendency {
  if (toMs === null) return 'worse';
  if (fromMs === null) return 'better';
  const isLater = toMs > fromMs;
  return isLater === (time === 'lightUp') ? 'worse' : 'better';
}

function diffWindows(was: DaySummary, day: DaySummary, nowMs: number): PlanChange | null {
  const gained = (verdict: Verdict): number =>
    Math.round((aheadMs(day, verdict, nowMs) - aheadMs(was, verdict, nowMs)) / MINUTE_MS);
  if (sameAhead(was, day, nowMs)) return null;
  const [goMin, holdMin, stopMin] = [gained('go'), gained('hold'), gained('stop')];
  const { date } = day;
  const tendency = windowsTendency(was, day, nowMs);
  return { kind: 'windows', date, goMin, holdMin, stopMin, tendency };
}

const aheadMs = (day: DaySummary, verdict: Verdict, nowMs: number): number =>
  day.windows.reduce(
    (sum, [v, fromMs, toMs]) => sum + (v === verdict ? Math.max(0, toMs - Math.max(fromMs, nowMs)) : 0),
    0,
  );

const aheadOf = (day: DaySummary, nowMs: number) =>
  day.windows
    .filter(([, , toMs]) => toMs > nowMs)
    .map(([verdict, fromMs, toMs]) => [verdict, Math.max(fromMs, nowMs), toMs] as const);

const sameAhead = (was: DaySummary, day: DaySummary, nowMs: number): boolean =>
  JSON.stringify(aheadOf(was, nowMs)) === JSON.stringify(aheadOf(day, nowMs));

/** worse where any instant ahead is worse than it was said to be, whatever else is better. */
function windowsTendency(was: DaySummary, day: DaySummary, nowMs: number): Tendency {
  const before = aheadOf(was, nowMs);
  let better = false;
  for (const [verdict, fromMs, toMs] of aheadOf(day, nowMs)) {
    for (const [old, oldFromMs, oldToMs] of before) {
      if (Math.max(fromMs, oldFromMs) >= Math.min(toMs, oldToMs)) continue;
      if (SEVERITY[verdict] > SEVERITY[old]) return 'worse';
      if (SEVERITY[verdict] < SEVERITY[old]) better = true;
    }
  }
  return better ? 'better' : 'other';
}
