// What a page may claim of a plan. A plan that is void, old or over never shows go, whatever it once said.

import type { ForecastState, PlanAnswer } from '#publish/wire.ts';
import { msOf } from './moments.ts';

export type Mark = 'go' | 'hold' | 'stop' | 'unsaid';

export interface Standing {
  readonly mark: Mark;
  /** ok: as planned. void: nobody has judged this moment. late: too late to light. over: the last charge has passed. */
  readonly state: 'ok' | 'void' | 'late' | 'over';
}

/** `nowVerdict`: what holds at `nowMs`, where it is known. */
export function standingOf(
  plan: PlanAnswer,
  forecast: ForecastState,
  nowMs: number,
  nowVerdict: 'go' | 'hold' | 'stop' | null,
): Standing {
  if (plan.lastCharge !== null && !isTrusted(plan, forecast, nowMs)) return { mark: 'unsaid', state: 'void' };
  if (plan.cannotSay) return { mark: 'unsaid', state: 'ok' };
  const isStop = nowVerdict === 'stop';
  if (plan.lastCharge !== null && nowMs >= msOf(plan.lastCharge)) {
    return { mark: isStop ? 'stop' : 'hold', state: 'over' };
  }
  if (plan.lightUpBy !== null && nowMs > msOf(plan.lightUpBy))
    return { mark: isStop ? 'stop' : 'hold', state: 'late' };
  // Inside the burn's time the moment's own verdict counts: a pause, or a stop that has come, is no go.
  const inside = plan.lightUp !== null && nowMs >= msOf(plan.lightUp);
  if (inside && nowVerdict !== null && nowVerdict !== 'go') return { mark: nowVerdict, state: 'ok' };
  return { mark: plan.verdict, state: 'ok' };
}

/** False where a go that was worked out for this plan may no longer be shown. */
export function isTrusted(plan: PlanAnswer, forecast: ForecastState, nowMs: number): boolean {
  const isVoid = plan.goodUntil !== null && nowMs >= msOf(plan.goodUntil);
  return !isVoid && !plan.stale && forecast.state !== 'none' && forecast.state !== 'stale';
}

/** The moment as of which a plan speaks, for pages that know no other. */
export const asOfMs = (plan: PlanAnswer): number => msOf(plan.workedOutAt);
