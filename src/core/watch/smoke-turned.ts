// Which way the smoke goes now: towards a protected place, away from it, or nobody can say.

import { DUST_MPS, placesWithinReach, smokeReaches } from '#core/rules/protected-places.ts';
import type { ProtectedPlace } from '#core/site/site.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Condition } from './condition.ts';
import { latch, type Side } from './latch.ts';
import { makeCondition } from './make-condition.ts';
import { raisedBefore, tellsWind, watchedOf, whileUnknown, windFigures } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';
import { windReadings } from './wind-readings.ts';
import { isSteady, type WindOver } from './wind-records.ts';

const CODE = 'smoke-turned-to-place';

/** `smoke-turned-to-place` for each protected place within reach, by its name. */
export function smokeTurned(context: WatchContext): Condition[] {
  return placesWithinReach(context.site).map((place) => {
    const readings = windReadings(context, ({ recent }) => sideOf(context, place, recent));
    const { nowMs, settings } = context;
    const { truth, raised, asOfMs, cause } = latch(
      readings,
      nowMs,
      settings.clearsForMin * MINUTE_MS,
      raisedBefore(context, CODE, place.name),
    );
    return makeCondition(CODE, {
      subject: place.name,
      truth,
      verdict: raised ? place.verdict : whileUnknown(context, CODE, place.name, tellsWind),
      basis: 'observed',
      asOfMs,
      validUntilMs: nowMs + HOUR_MS,
      figures: { ...windFigures(watchedOf(context, cause)), place: place.name },
    });
  });
}

/**
 * It reaches the place however weak; but a calm, a wind from no one direction and one too light to be trusted go anywhere, so
 * that they never say that it does not.
 */
function sideOf({ site, settings }: WatchContext, place: ProtectedPlace, recent: WindOver): Side | null {
  if (recent.speedMps === null) return null;
  if (recent.fromDeg !== null && smokeReaches(place, recent.fromDeg)) return 'beyond';
  const isLight = recent.speedMps < site.smoke.unsureBelowMps - DUST_MPS;
  if (isLight || !isSteady(recent, settings)) return 'unsure';
  const wider = { ...place, marginDeg: place.marginDeg + settings.smoke.clearOutsideDeg };
  return smokeReaches(wider, recent.fromDeg) ? 'near' : 'clear';
}
