// What each observation of a station says on a question about its wind, for the latch.

import type { Reading, Side } from './latch.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import type { Station } from './station.ts';
import { type SideAt, strictReadings } from './strict-readings.ts';
import type { WatchContext } from './watch-context.ts';
import { recentWind, type WindOver, type WindRecord, windRecords } from './wind-records.ts';

/** What the wind as of one observation says; null where it says nothing on this. */
export type SideOfWind = (
  recent: WindOver,
  record: WindRecord,
  records: readonly WindRecord[],
  station: Station,
) => Side | null;

export const windReadings = (context: WatchContext, sideOf: SideOfWind): Reading[] =>
  strictReadings(context, chosenFor(context, tellsWind), (watched) => {
    const records = windRecords(watched);
    return records.flatMap((record): SideAt[] => {
      const side = sideOf(
        recentWind(records, record.atMs, context.settings),
        record,
        records,
        watched.station,
      );
      return side === null ? [] : [{ atMs: record.atMs, side }];
    });
  });
