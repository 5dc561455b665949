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

/**
 * `wind-drifted`, of an open burn, by the direction in degrees that the crew acknowledged last; no subject before. What was
 * asked of another direction is over with the acknowledgement.
 */
export function windDrift(context: WatchContext): Condition[] {
  const subject = subjectOf(context);
  const others = context.before.filter(
    (c) => c.code === CODE && c.subject !== subject && c.truth !== 'false',
  );
  return [
    drifted(context, subject),
    ...others.map((c) => ({
      ...c,
      truth: 'false' as const,
      basis: 'record' as const,
      figures: { ...c.figures, windFromDeg: context.rebriefed?.fromDeg ?? null, what: 'rebriefed' },
    })),
  ];
}

const subjectOf = ({ rebriefed }: WatchContext): string =>
  rebriefed === null ? '' : String(Math.round(rebriefed.fromDeg));

function drifted(context: WatchContext, subject: string): Condition {
  const { nowMs, rebriefed, settings } = context;
  const { holdsForMin } = settings.drift;
  const { atLeastDeg, clearWithinDeg } = boundsOf(context);
  const briefedDeg = rebriefed?.fromDeg ?? briefedFromDeg(context);
  // The wind before the one that was acknowledged is no drift from it.
  const sinceMs = rebriefed?.observedAtMs ?? Number.NEGATIVE_INFINITY;
  const readings = windReadings(context, ({ atMs, recent }) => {
    if (recent.speedMps === null || atMs < sinceMs) return null;
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
    raisedBefore(context, CODE, subject),
  );
  return makeCondition(CODE, {
    subject,
    truth,
    verdict: raised ? 'hold' : whileUnknown(context, CODE, subject, tellsWind),
    basis: 'observed',
    asOfMs,
    holdsForMs: holdsForMin * MINUTE_MS,
    validUntilMs: nowMs + HOUR_MS,
    figures: { ...windFigures(watchedOf(context, cause)), wasFromDeg: briefedDeg },
  });
}

/** Who has acknowledged a wind is told when it goes on as far as a turn is. */
function boundsOf({ rebriefed, settings: { drift, shift } }: WatchContext): {
  readonly atLeastDeg: number;
  readonly clearWithinDeg: number;
} {
  if (rebriefed === null || shift.atLeastDeg >= drift.atLeastDeg) return drift;
  const roomDeg = drift.atLeastDeg - drift.clearWithinDeg;
  return { atLeastDeg: shift.atLeastDeg, clearWithinDeg: Math.max(0, shift.atLeastDeg - roomDeg) };
}

/** As recorded with the burn, else the forecast's at light-up. */
function briefedFromDeg({ burn, plan }: WatchContext): number | null {
  if (burn?.briefedFromDeg != null) return burn.briefedFromDeg;
  if (!burn || !plan) return null;
  const { series } = plan;
  return valueAt(series, 'windDirection', hourAt(series, burn.litAtMs ?? burn.openedAtMs));
}
