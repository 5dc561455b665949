// What a page may claim of a plan. A plan that is void, old, late or over never shows go, whatever it once said.

import type { ForecastState, PlanAnswer, WindowsAnswer } from '#publish/wire.ts';
import { msOf } from './moments.ts';
import { heldUnknown } from './reasons.ts';

export type Mark = 'go' | 'hold' | 'stop' | 'unsaid';
export type NowWindow = WindowsAnswer['windows'][number];

export interface Standing {
  readonly mark: Mark;
  /**
   * ok: as planned. void: nobody has judged this moment. charge: too late to light. pause: add no wood. over: the last charge
   * has passed.
   */
  readonly state: 'ok' | 'void' | 'charge' | 'pause' | 'over';
  /** True where the mark is that of this moment, not that of the day. */
  readonly byNow: boolean;
  /** True where the mark is that of the watch, which is worse: the times of the plan are none to go by. */
  readonly byLive?: boolean;
}

/** `now`: the window of this moment, null where nothing has judged it; undefined for another day than today. */
export function standingOf(
  plan: PlanAnswer,
  forecast: ForecastState,
  nowMs: number,
  now: NowWindow | null | undefined,
): Standing {
  const day = ofTheDay(plan, forecast, nowMs);
  if (now === undefined) return day;
  // Before light-up the day's answer is the answer, as at dawn; what holds at this moment stands beside it.
  const isAhead = plan.lightUp !== null && nowMs < msOf(plan.lightUp);
  if (day.mark === 'go' && isAhead && now !== null) return day;
  // Without a burn the plan has weighed what holds now.
  if (plan.lightUp === null)
    return {
      ...day,
      byNow: now !== null && day.mark === 'stop' && now.verdict === 'stop' && endsThatDay(now, plan),
    };
  if (now?.verdict === 'stop') return { ...day, mark: 'stop', byNow: endsThatDay(now, plan) };
  if (day.state === 'pause') return { ...day, byNow: now !== null };
  return day.mark === 'go' && now?.verdict !== 'go' ? { ...day, mark: markOf(now), byNow: true } : day;
}

/** A stop that outlasts the day is the day's own. */
const endsThatDay = (now: NowWindow, { day }: PlanAnswer): boolean => now.to.slice(0, 10) === day;

function ofTheDay(plan: PlanAnswer, forecast: ForecastState, nowMs: number): Standing {
  const phase = phaseOf(plan, nowMs);
  const byDay = (mark: Mark, state: Standing['state']) => ({ mark, state, byNow: false });
  const claims = phase !== 'none' || plan.verdict === 'go';
  if (claims && !isTrusted(plan, forecast, nowMs)) return byDay('unsaid', 'void');
  if (phase === 'charge' || phase === 'over' || phase === 'pause')
    return byDay(plan.verdict === 'stop' ? 'stop' : 'hold', phase);
  if (plan.cannotSay) return byDay('unsaid', 'ok');
  // A go without its times is none.
  if (phase === 'none') return byDay(plan.verdict === 'stop' ? 'stop' : 'hold', 'ok');
  return byDay(plan.verdict, 'ok');
}

/** Where the day's burn stands at `nowMs`, never earlier than the plan itself says. */
function phaseOf(plan: PlanAnswer, nowMs: number): 'none' | 'open' | 'charge' | 'pause' | 'over' {
  const { lightUp, lightUpBy, lastCharge, standing } = plan;
  if (lightUp === null || lastCharge === null) return 'none';
  if (standing === 'over' || nowMs >= msOf(lastCharge)) return 'over';
  const isLate = lightUpBy !== null && nowMs >= msOf(lightUpBy);
  if (standing === 'charge' || isLate) return 'charge';
  return standing === 'pause' ? 'pause' : 'open';
}

export function markOf(now: NowWindow | null): Mark {
  if (now === null) return 'unsaid';
  return now.verdict === 'hold' && heldUnknown(now.reasons) ? 'unsaid' : now.verdict;
}

/** False where a go that was worked out for this plan may no longer be shown. */
export function isTrusted(plan: PlanAnswer, forecast: ForecastState, nowMs: number): boolean {
  const isVoid = plan.goodUntil !== null && nowMs >= msOf(plan.goodUntil);
  return !isVoid && !plan.stale && forecast.state !== 'none' && forecast.state !== 'stale';
}

/** The moment as of which a plan speaks, for pages that know no other. */
export const asOfMs = (plan: PlanAnswer): number => msOf(plan.workedOutAt);
