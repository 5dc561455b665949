// What each observation of a station says on a question about its wind, for the latch.

import type { Watched } from './choose-station.ts';
import { inOrderOfTime, type Reading, type Side } from './latch.ts';
import { chosenFor, strictWatched, tellsWind } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';
import { recentWind, type WindOver, type WindRecord, windRecords } from './wind-records.ts';

/** What the wind as of one observation says; null where it says nothing on this. */
export type SideOfWind = (recent: WindOver, record: WindRecord) => Side | null;

/**
 * All that the chosen station says, and of the others whose word counts on the strict side only what is beyond. What came out
 * of order and long after is beyond nothing any more.
 */
export function windReadings(context: WatchContext, sideOf: SideOfWind): Reading[] {
  const choice = chosenFor(context, tellsWind);
  const readings = strictWatched(context, choice).flatMap((watched) => {
    const own = readingsOf(context, watched, sideOf);
    return watched === choice.chosen ? own : own.filter((r) => r.side === 'beyond');
  });
  return inOrderOfTime(readings);
}

function readingsOf(context: WatchContext, watched: Watched, sideOf: SideOfWind): Reading[] {
  const records = windRecords(watched);
  const readings: Reading[] = [];
  for (const record of records) {
    const { atMs } = record;
    const side = sideOf(recentWind(records, atMs, context.settings), record);
    if (side === null) continue;
    const isLate = side === 'beyond' && watched.lateMs.has(atMs);
    readings.push({ atMs, freshUntilMs: atMs + watched.health.freshForMs, side: isLate ? 'near' : side });
  }
  return readings;
}
