// What each observation of a station says on a question about its wind, for the latch.

import type { Reading, Side } from './latch.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import type { Station } from './station.ts';
import { type SideAt, strictReadings } from './strict-readings.ts';
import type { WatchContext } from './watch-context.ts';
import type { WindRecord } from './wind-records.ts';

/** What the wind as of one observation says; null where it says nothing on this. */
export type SideOfWind = (
  record: WindRecord,
  records: readonly WindRecord[],
  station: Station,
) => Side | null;

/** What is doubted may be beyond by itself; else it says nothing that can be trusted. */
export const windReadings = (context: WatchContext, sideOf: SideOfWind): Reading[] =>
  strictReadings(context, chosenFor(context, tellsWind), ({ doubted, station, winds }) => [
    ...sidesOf(station, winds, sideOf),
    ...doubted.flatMap((record) =>
      sidesOf(station, [record], sideOf).map(
        ({ atMs, side }): SideAt => ({ atMs, side: side === 'beyond' ? side : 'unsure' }),
      ),
    ),
  ]);

const sidesOf = (station: Station, records: readonly WindRecord[], sideOf: SideOfWind): SideAt[] =>
  records.flatMap((record): SideAt[] => {
    const side = sideOf(record, records, station);
    return side === null ? [] : [{ atMs: record.atMs, side }];
  });
