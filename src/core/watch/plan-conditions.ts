// The newest plan against what the crew was told, and what it foresees within the shift.

import { diffPlans, type PlanChange } from '#core/plan/diff-plans.ts';
import { type DaySummary, type DayTime, summariseDays } from '#core/plan/plan-summary.ts';
import { SEVERITY, type Verdict } from '#core/rules/finding.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import { BLIND_FOR_MS } from './blind-for.ts';
import { briefedDay, isOpen } from './burn-plan.ts';
import type { Condition, ConditionCode, ConditionFigures, Truth } from './condition.ts';
import { isForecastFresh } from './is-forecast-fresh.ts';
import { makeCondition, truthOf } from './make-condition.ts';
import { planSays } from './plan-says.ts';
import type { WatchContext } from './watch-context.ts';

/** `plan-verdict`, `plan-moved` for each of the three times, `plan-worse`, `wind-shift-ahead` and `forecast-stale`. */
export function planConditions(context: WatchContext): Condition[] {
  const { burn, date, nowMs, plan } = context;
  const told = briefedDay(context);
  // While a fire burns, a plan that has nothing to go by says nothing of it but its stops; that it has nothing is told by
  // itself.
  const says = !isOpen(burn) || planSays(context);
  const planned = plan === null ? null : (summariseDays(plan).find((d) => d.date === date) ?? null);
  const day: ToldDay = {
    told,
    planned,
    says,
    changes: told && planned && says ? diffPlans([told], [planned], nowMs) : null,
    validUntilMs: ofUseUntilMs(context, told, planned),
    // That one answer failed is no other plan yet.
    holdsForMs: !isOpen(burn) && planned?.cannotSay ? BLIND_FOR_MS : 0,
  };
  return [
    planVerdict(context, day),
    ...MOVING.map((time) => planMoved(context, day, time)),
    planWorse(context, day),
    windShiftAhead(context),
    forecastStale(context),
  ];
}

/** A day as it was told and as it is planned now, each null where there is none. */
interface ToldDay {
  readonly told: DaySummary | null;
  readonly planned: DaySummary | null;
  readonly says: boolean;
  readonly changes: readonly PlanChange[] | null;
  readonly validUntilMs: number;
  readonly holdsForMs: number;
}

/** Before the fire, who sleeps must still be told when they wake: until nobody can light by the plan any more. */
function ofUseUntilMs(
  { burn, nowMs }: WatchContext,
  told: DaySummary | null,
  planned: DaySummary | null,
): number {
  const lightMs = isOpen(burn) ? 0 : Math.max(told?.times?.lightUpBy ?? 0, planned?.times?.lightUpBy ?? 0);
  return Math.max(nowMs + HOUR_MS, lightMs);
}

const MOVING: readonly DayTime[] = ['lightUp', 'lastCharge', 'coveredBy'];

/** The verdict of this moment; without a plan a hold. */
const planNow = ({ plan, nowMs }: WatchContext): Verdict =>
  (plan && windowAt(plan.windows, nowMs)?.verdict) ?? 'hold';

interface OfPlan {
  readonly subject?: string;
  readonly truth: Truth;
  readonly verdict: Verdict;
  readonly figures?: Partial<ConditionFigures>;
  readonly validUntilMs?: number;
  readonly holdsForMs?: number;
}

/** Where there is nothing to compare, that is no reason to hold: the plan itself is, where it lacks. */
const ofPlan = ({ plan, nowMs }: WatchContext, code: ConditionCode, text: OfPlan): Condition =>
  makeCondition(code, {
    basis: 'forecast',
    asOfMs: plan?.forecast.issuedAtMs ?? null,
    validUntilMs: nowMs + HOUR_MS,
    ...text,
  });

function planVerdict(
  context: WatchContext,
  { told, planned, changes, validUntilMs, holdsForMs }: ToldDay,
): Condition {
  const change = changes?.find((c) => c.kind === 'verdict');
  return ofPlan(context, 'plan-verdict', {
    truth: truthOf(changes && change !== undefined),
    verdict: change?.tendency === 'worse' ? ofDay(context, planned) : 'go',
    validUntilMs,
    holdsForMs,
    figures: {
      what: change?.to ?? null,
      atMs: planned?.times?.lightUp ?? null,
      wasMs: told?.times?.lightUp ?? null,
    },
  });
}

/** What is to be done now: while a fire burns by the plan of this moment, before it by that of the day. */
const ofDay = (context: WatchContext, planned: DaySummary | null): Verdict =>
  isOpen(context.burn) ? planNow(context) : (planned?.verdict ?? 'hold');

function planMoved(
  context: WatchContext,
  { planned, changes, validUntilMs, holdsForMs }: ToldDay,
  time: DayTime,
): Condition {
  const { before, burn, nowMs, settings } = context;
  const change = changes?.find((c) => c.kind === 'time' && c.time === time);
  const moved = change?.kind === 'time' ? change : null;
  const wasTrue = before.some((c) => c.code === 'plan-moved' && c.subject === time && c.truth === 'true');
  const leastMin = wasTrue ? settings.plan.backWithinMin : settings.plan.movedMin;
  const isFar = moved !== null && (moved.movedMin === null || Math.abs(moved.movedMin) >= leastMin);
  // Of an open burn the light-up is past, and the times of a second fire that day are not its own.
  const isOthers = isOpen(burn) && (time === 'lightUp' || (planned?.times?.lightUp ?? 0) > nowMs);
  return ofPlan(context, 'plan-moved', {
    subject: time,
    truth: truthOf(changes && isFar && !isOthers),
    verdict: moved?.toMs === null ? ofDay(context, planned) : 'go',
    validUntilMs,
    holdsForMs,
    figures: { what: time, atMs: moved?.toMs ?? null, wasMs: moved?.fromMs ?? null },
  });
}

/** Where some time ahead is worse than was told: half an hour of it, or this very moment. */
function planWorse(context: WatchContext, day: ToldDay): Condition {
  const { nowMs, settings } = context;
  const { told, planned, says, validUntilMs, holdsForMs } = day;
  const ahead = told && planned ? worseAhead(told, planned, nowMs) : [];
  const worse = ahead.filter(({ verdict }) => says || verdict === 'stop');
  const isNow = worse.some((w) => w.fromMs <= nowMs);
  const totalMs = worse.reduce((sum, w) => sum + w.toMs - w.fromMs, 0);
  const isTrue = isNow || totalMs >= settings.plan.worseMin * MINUTE_MS;
  const [first] = worse;
  return ofPlan(context, 'plan-worse', {
    truth: truthOf(told && planned && (says || isTrue) ? isTrue : null),
    verdict: isNow ? planNow(context) : 'go',
    validUntilMs,
    holdsForMs,
    figures: { what: first?.verdict ?? null, atMs: first?.fromMs ?? null },
  });
}

interface Worse {
  readonly fromMs: number;
  readonly toMs: number;
  readonly verdict: Verdict;
}

function worseAhead(told: DaySummary, planned: DaySummary, nowMs: number): Worse[] {
  return planned.windows.flatMap(([verdict, fromMs, toMs]) =>
    told.windows.flatMap(([was, wasFromMs, wasToMs]): Worse[] => {
      const part = { fromMs: Math.max(fromMs, wasFromMs, nowMs), toMs: Math.min(toMs, wasToMs) };
      return part.fromMs < part.toMs && SEVERITY[verdict] > SEVERITY[was] ? [{ ...part, verdict }] : [];
    }),
  );
}

/** A shift, where no plan says how long it is. */
const UNPLANNED_MS = 12 * HOUR_MS;

/** Until when what is foreseen concerns the crew: the end of the shift, and of the burn. */
export function horizonMs({ burn, date, nowMs, plan }: WatchContext): number {
  if (plan === null) return nowMs + UNPLANNED_MS;
  const shift = plan.calendar.shifts.find((s) => s.fromMs <= nowMs && nowMs < s.toMs);
  const times = plan.days.find((d) => d.day.date === date)?.times;
  const coveredMs = isOpen(burn) ? (times?.coveredByMs ?? 0) : 0;
  return Math.max(nowMs, shift?.toMs ?? 0, coveredMs);
}

function windShiftAhead(context: WatchContext): Condition {
  const { nowMs, plan } = context;
  const untilMs = horizonMs(context);
  const ahead = plan?.findings
    .filter((f) => f.code === 'wind-shift')
    .filter((f) => f.figures.atMs > nowMs && f.figures.atMs <= untilMs)
    .sort((a, b) => a.figures.atMs - b.figures.atMs);
  const first = ahead?.[0];
  const ofFirst = ahead?.filter((f) => f.figures.atMs === first?.figures.atMs) ?? [];
  const holds = ofFirst.some((f) => f.verdict !== 'go' && f.fromMs <= nowMs && nowMs < f.toMs);
  return ofPlan(context, 'wind-shift-ahead', {
    truth: truthOf(ahead === undefined ? null : first !== undefined),
    verdict: holds ? 'hold' : 'go',
    validUntilMs: first?.figures.atMs ?? nowMs + HOUR_MS,
    figures: first
      ? {
          windFromDeg: first.figures.toDeg,
          wasFromDeg: first.figures.fromDeg,
          windSpeedMps: first.figures.windSpeedMps,
          atMs: first.figures.atMs,
          place: ofFirst.find((f) => f.figures.place !== null)?.figures.place ?? null,
        }
      : {},
  });
}

function forecastStale(context: WatchContext): Condition {
  return ofPlan(context, 'forecast-stale', {
    truth: isForecastFresh(context) ? 'false' : 'true',
    verdict: 'hold',
    figures: { wasMs: context.plan?.forecast.issuedAtMs ?? null },
  });
}
