// What tells a reader that something is newer than what it has.

import type { DatabaseAccess } from './access.ts';
import { counterValues } from './counters.ts';
import type { Marks } from './store.ts';

export const createMarks =
  ({ reading }: DatabaseAccess): (() => Promise<Marks>) =>
  () =>
    reading(async (db) => {
      const counters = await counterValues(db);
      const cells = await db.selectFrom('cells').select(['cell', 'version']).execute();
      const places = await db
        .selectFrom('places')
        .select(['place', 'version', 'alertsFetchedAtMs'])
        .execute();
      return {
        definitions: String(counters.get('definitions') ?? 0),
        keys: String(counters.get('keys') ?? 0),
        cells: new Map(cells.map((row) => [row.cell, row.version])),
        places: new Map(places.map(({ place, ...mark }) => [place, mark])),
      };
    });
