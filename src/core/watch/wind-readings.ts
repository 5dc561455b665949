// What each observation of a station says on a question about its wind, for the latch.

import type { Watched } from './choose-station.ts';
import type { Reading, Side } from './latch.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import type { Station } from './station.ts';
import { type SideAt, strictReadings } from './strict-readings.ts';
import type { WatchContext } from './watch-context.ts';
import { doubtedWinds, recentWind, type WindOver, type WindRecord, windRecords } from './wind-records.ts';

/** What the wind as of one observation says; null where it says nothing on this. */
export type SideOfWind = (
  recent: WindOver,
  record: WindRecord,
  records: readonly WindRecord[],
  station: Station,
) => Side | null;

/** What is doubted may be beyond by itself; else it says nothing that can be trusted. */
export const windReadings = (context: WatchContext, sideOf: SideOfWind): Reading[] =>
  strictReadings(context, chosenFor(context, tellsWind), (watched) => [
    ...sidesOf(context, watched, windRecords(watched), sideOf),
    ...doubtedWinds(watched).flatMap((record) =>
      sidesOf(context, watched, [record], sideOf).map(
        ({ atMs, side }): SideAt => ({ atMs, side: side === 'beyond' ? side : 'unsure' }),
      ),
    ),
  ]);

const sidesOf = (
  { settings }: WatchContext,
  { station }: Watched,
  records: readonly WindRecord[],
  sideOf: SideOfWind,
): SideAt[] =>
  records.flatMap((record): SideAt[] => {
    const side = sideOf(recentWind(records, record.atMs, settings), record, records, station);
    return side === null ? [] : [{ atMs: record.atMs, side }];
  });
