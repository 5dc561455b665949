// A wind that swings about so much that its direction says nothing: treated as a hold until it has been quiet.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Condition } from './condition.ts';
import { latch } from './latch.ts';
import { makeCondition } from './make-condition.ts';
import { raisedBefore, tellsWind, watchedOf, whileUnknown, windFigures } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';
import { windReadings } from './wind-readings.ts';
import { isSteady, windOver } from './wind-records.ts';

const CODE = 'wind-unsteady';

/**
 * `wind-unsteady`: the resultant length over some minutes is below that from which directions can be compared, or the report
 * itself calls the wind variable. A light wind is none: where that matters, the protected places say so.
 */
export function unsteady(context: WatchContext): Condition {
  const { nowMs, settings } = context;
  const { undefinedBelow, unsteadyClearsForMin, unsteadyOverMin } = settings.wind;
  const overMs = unsteadyOverMin * MINUTE_MS;
  const readings = windReadings(context, (_, { atMs }, records) => {
    const over = windOver(records, atMs, overMs, undefinedBelow);
    if (over.speedMps === null) return null;
    if (over.kind === 'calm' || over.speedMps < settings.shift.atLeastMps) return 'near';
    return isSteady(over, settings) ? 'clear' : 'beyond';
  });
  const { truth, raised, asOfMs, cause } = latch(
    readings,
    nowMs,
    unsteadyClearsForMin * MINUTE_MS,
    raisedBefore(context, CODE, ''),
  );
  return makeCondition(CODE, {
    truth,
    verdict: raised ? 'hold' : whileUnknown(context, CODE, '', tellsWind),
    basis: 'observed',
    asOfMs,
    validUntilMs: nowMs + HOUR_MS,
    figures: windFigures(watchedOf(context, cause), context),
  });
}
