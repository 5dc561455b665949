// The burn against its plan: lit when it was not to be, and the last charge.

import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { windowAt } from '#core/windows/find-windows.ts';
import type { Burn } from './burn.ts';
import { briefedVerdict, dayIn, dayOf, isCharging, type LastCharge, lastChargeOf } from './burn-plan.ts';
import type { Condition, Truth } from './condition.ts';
import { isForecastFresh } from './is-forecast-fresh.ts';
import { litWithoutGo } from './lit-without-go.ts';
import { makeCondition } from './make-condition.ts';
import type { WatchContext } from './watch-context.ts';

/**
 * `lit-against-plan`, `lit-without-go`, `last-charge-soon` and `last-charge-due` of an open burn; `beside`: what else is judged
 * of the site at this look.
 */
export function chargeConditions(
  context: WatchContext,
  burn: Burn,
  beside: readonly Condition[] = [],
): Condition[] {
  const against = litAgainstPlan(context, burn);
  const withoutGo = litWithoutGo(context, burn, beside, against.truth === 'true');
  return [against, withoutGo, ...lastCharge(context, burn)];
}

/**
 * Recorded, never refused. By what the crew had been told where that speaks of the moment, else by the plan; with the verdict of
 * now, since the light-up itself is past.
 */
function litAgainstPlan(context: WatchContext, burn: Burn): Condition {
  const { date, litBy, nowMs, plan } = context;
  const litMs = burn.litAtMs ?? burn.openedAtMs;
  const told = dayIn(litBy, date);
  const planned = plan && windowAt(plan.windows, litMs);
  const verdict = briefedVerdict(told, litMs) ?? planned?.verdict ?? null;
  const byMs = told?.times?.lightUpBy ?? dayOf(plan, date)?.times?.lightUpByMs ?? Number.POSITIVE_INFINITY;
  const against = verdict === 'go' && litMs >= byMs ? 'lightUpBy' : verdict;
  const truth: Truth = against === 'go' ? 'false' : 'true';
  return makeCondition('lit-against-plan', {
    truth: against === null ? 'unknown' : truth,
    verdict: (plan && windowAt(plan.windows, nowMs)?.verdict) ?? 'hold',
    basis: 'record',
    asOfMs: litMs,
    validUntilMs: litMs + DAY_MS,
    figures: { what: truth === 'true' ? against : null, atMs: litMs },
  });
}

/** lastChargeOld: by the last good plan, since the forecast is too old. lastChargeTold: by it for another reason. */
function whatOf(context: WatchContext, last: LastCharge): string {
  if (!('by' in last) || last.by === 'plan') return 'lastCharge';
  return isForecastFresh(context) ? 'lastChargeTold' : 'lastChargeOld';
}

function lastCharge(context: WatchContext, burn: Burn): Condition[] {
  const { nowMs, plan, settings } = context;
  const last = lastChargeOf(context, burn);
  const atMs = last.kind === 'at' || last.kind === 'due' ? last.atMs : null;
  const truthOf = (isTrue: boolean): Truth => {
    if (!isCharging(burn)) return 'false';
    if (last.kind === 'unknown') return 'unknown';
    return isTrue ? 'true' : 'false';
  };
  const soonMs = settings.burn.chargeSoonMin * MINUTE_MS;
  const isSoon = last.kind === 'at' && nowMs >= last.atMs - soonMs;
  const text = {
    basis: 'forecast' as const,
    asOfMs: plan?.forecast.issuedAtMs ?? null,
    figures: { what: whatOf(context, last), atMs },
  };
  return [
    makeCondition('last-charge-soon', {
      ...text,
      truth: truthOf(isSoon),
      verdict: 'go',
      validUntilMs: atMs ?? nowMs + HOUR_MS,
    }),
    makeCondition('last-charge-due', {
      ...text,
      truth: truthOf(last.kind === 'due'),
      verdict: 'hold',
      validUntilMs: nowMs + HOUR_MS,
    }),
  ];
}
