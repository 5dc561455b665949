// A wind that swings about so much that its direction says nothing: treated as a hold until it has been quiet.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Condition } from './condition.ts';
import { latch } from './latch.ts';
import { makeCondition } from './make-condition.ts';
import { raisedBefore, tellsWind, watchedOf, whileUnknown, windFigures } from './observed-by.ts';
import type { Station } from './station.ts';
import type { WatchContext } from './watch-context.ts';
import type { WatchSettings } from './watch-settings.ts';
import { windReadings } from './wind-readings.ts';
import { isSteady, type WindRecord, windOver } from './wind-records.ts';

const CODE = 'wind-unsteady';

/**
 * `wind-unsteady`: over some minutes the wind comes from no direction that could be compared, and not because it turned once
 * from one to another; or the report itself calls it variable. A light wind is none: where that matters, the protected places
 * say so.
 */
export function unsteady(context: WatchContext): Condition {
  const { nowMs, settings } = context;
  const { unsteadyClearsForMin } = settings.wind;
  const readings = windReadings(context, (record, records, station) => {
    const { speedMps } = record.recent;
    if (speedMps === null) return null;
    if (speedMps < settings.shift.atLeastMps) return 'near';
    if (record.wind.kind === 'variable') return 'beyond';
    return swings(stretchBefore(records, record.atMs, station, settings), settings) ? 'beyond' : 'clear';
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
    figures: windFigures(watchedOf(context, cause)),
  });
}

/** Enough observations to see a wind swing, where the station tells often enough. */
const STRETCH_PERIODS = 4;
const LONGEST_STRETCH_MIN = 30;

function stretchBefore(
  records: readonly WindRecord[],
  atMs: number,
  { periodMin }: Station,
  { wind }: WatchSettings,
): WindRecord[] {
  const wantedMin = Math.max(wind.unsteadyOverMin, STRETCH_PERIODS * periodMin);
  const overMs = Math.min(LONGEST_STRETCH_MIN, wantedMin) * MINUTE_MS;
  return records.filter((r) => r.atMs > atMs - overMs && r.atMs <= atMs);
}

/** True where neither the whole nor the two parts of any cut are steady. Two observations cannot swing. */
function swings(stretch: readonly WindRecord[], settings: WatchSettings): boolean {
  if (stretch.length < 3) return false;
  const isSteadyPart = (part: readonly WindRecord[]): boolean => {
    if (part.length === 0) return true;
    const over = windOver(part, Number.POSITIVE_INFINITY, settings.wind.undefinedBelow);
    return over.kind === 'calm' || isSteady(over, settings);
  };
  return !stretch.some((_, cut) => isSteadyPart(stretch.slice(0, cut)) && isSteadyPart(stretch.slice(cut)));
}
