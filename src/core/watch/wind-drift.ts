// The wind is far from the direction that the crew was briefed on, however slowly it went there.

import { hourAt, valueAt } from '#core/series/hourly-series.ts';
import { angleBetweenDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Condition } from './condition.ts';
import { latch } from './latch.ts';
import { makeCondition } from './make-condition.ts';
import { raisedBefore, tellsWind, watchedOf, whileUnknown, windFigures } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';
import { windReadings } from './wind-readings.ts';
import { isSteady } from './wind-records.ts';

const CODE = 'wind-drifted';
const DUST_DEG = 1e-6;

/** `wind-drifted`, of an open burn. What the crew was briefed on moves only when somebody acknowledges. */
export function windDrift(context: WatchContext): Condition {
  const { nowMs, settings } = context;
  const { atLeastDeg, clearWithinDeg, holdsForMin } = settings.drift;
  const briefedDeg = briefedFromDeg(context);
  const readings = windReadings(context, ({ recent }) => {
    if (recent.speedMps === null) return null;
    // A wind too light to carry smoke anywhere has no direction to drift from; the protected places judge that.
    if (recent.speedMps < settings.shift.atLeastMps) return 'near';
    if (briefedDeg === null || !isSteady(recent, settings)) return 'unsure';
    const byDeg = angleBetweenDeg(recent.fromDeg, briefedDeg);
    if (byDeg >= atLeastDeg - DUST_DEG) return 'beyond';
    return byDeg <= clearWithinDeg + DUST_DEG ? 'clear' : 'near';
  });
  const { truth, raised, asOfMs, cause } = latch(
    readings,
    nowMs,
    settings.clearsForMin * MINUTE_MS,
    raisedBefore(context, CODE, ''),
  );
  return makeCondition(CODE, {
    truth,
    verdict: raised ? 'hold' : whileUnknown(context, CODE, '', tellsWind),
    basis: 'observed',
    asOfMs,
    holdsForMs: holdsForMin * MINUTE_MS,
    validUntilMs: nowMs + HOUR_MS,
    figures: { ...windFigures(watchedOf(context, cause)), wasFromDeg: briefedDeg },
  });
}

/** As recorded with the burn, else the forecast's at light-up. */
function briefedFromDeg({ burn, plan }: WatchContext): number | null {
  if (burn?.briefedFromDeg != null) return burn.briefedFromDeg;
  if (!burn || !plan) return null;
  const { series } = plan;
  return valueAt(series, 'windDirection', hourAt(series, burn.litAtMs ?? burn.openedAtMs));
}
