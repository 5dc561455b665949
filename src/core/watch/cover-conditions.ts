// The pit must be covered: when that is due, and whether dusk has come first.

import { daylightOver } from '#core/site/daylight.ts';
import { putOutMs } from '#core/site/site.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Burn } from './burn.ts';
import { lastChargeOf } from './burn-plan.ts';
import type { Condition, Truth } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import type { WatchContext } from './watch-context.ts';

/** `cover-due` and `not-covered-by-dusk` of an open burn. */
export function coverConditions(context: WatchContext, burn: Burn): Condition[] {
  return [coverDue(context, burn), notCoveredByDusk(context, burn)];
}

/** From when covering is due, and by when it must be done; null where nobody can say. */
function coverTimes(context: WatchContext, burn: Burn): { fromMs: number; byMs: number } | null {
  const { burnDownMin, coverMin } = context.site.burn;
  const after = (ms: number) => ({
    fromMs: ms + burnDownMin * MINUTE_MS,
    byMs: ms + putOutMs(context.site.burn),
  });
  if (burn.state === 'put-out-early') {
    return { fromMs: burn.sinceMs, byMs: burn.sinceMs + coverMin * MINUTE_MS };
  }
  const last = lastChargeOf(context, burn);
  const planned = last.kind === 'at' || last.kind === 'due' ? after(last.atMs) : null;
  if (burn.state !== 'burning-down') return planned;
  // Who charged for longer than planned has the less time left: what ends the burn comes when it comes.
  const tapped = after(burn.sinceMs);
  return planned !== null && planned.byMs < tapped.byMs ? planned : tapped;
}

function coverDue(context: WatchContext, burn: Burn): Condition {
  const { nowMs } = context;
  const times = coverTimes(context, burn);
  const truth: Truth = times !== null && nowMs >= times.fromMs ? 'true' : 'false';
  const isNotYet = lastChargeOf(context, burn).kind === 'not-yet';
  return makeCondition('cover-due', {
    truth: times === null && !isNotYet ? 'unknown' : truth,
    verdict: times !== null && nowMs >= times.byMs ? 'stop' : 'hold',
    basis: 'record',
    asOfMs: burn.sinceMs,
    validUntilMs: nowMs + HOUR_MS,
    figures: { what: 'coveredBy', atMs: times?.byMs ?? null },
  });
}

/** A sunset has passed since the pit was lit. Where the site may burn by night, that is nothing. */
function notCoveredByDusk({ nowMs, site }: WatchContext, burn: Burn): Condition {
  const light = daylightOver(site.place, { fromMs: burn.openedAtMs, toMs: nowMs + 1 });
  const sunset = light.find((d) => d.endsAtSunset && d.toMs > burn.openedAtMs && d.toMs <= nowMs);
  return makeCondition('not-covered-by-dusk', {
    truth: site.daylight !== null && sunset !== undefined ? 'true' : 'false',
    verdict: 'stop',
    basis: 'record',
    asOfMs: burn.sinceMs,
    validUntilMs: nowMs + HOUR_MS,
    figures: { what: 'sunset', atMs: sunset?.toMs ?? null },
  });
}
