// Reads of a span of time that has passed.

import type { DatabaseAccess } from '#store/access.ts';
import type { HistoryReads } from './history-records.ts';
import { asObservation } from './rows.ts';

export const createHistoryReads = ({ reading }: DatabaseAccess): HistoryReads => ({
  observedWithin: (site, fromMs, toMs, most) =>
    reading(async (db) => {
      const rows = await db
        .selectFrom('observations')
        .selectAll()
        .where('site', '=', site)
        .where('observedAtMs', '>=', fromMs)
        .where('observedAtMs', '<', toMs)
        .orderBy('observedAtMs')
        .orderBy('station')
        .orderBy('revision')
        .limit(most)
        .execute();
      // A later revision takes the place of the one before it.
      const newest = new Map(rows.map((row) => [`${row.station} ${row.observedAtMs}`, row]));
      return [...newest.values()].map(asObservation);
    }),
});
