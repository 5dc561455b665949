// What tells a reader that something is newer than what it has.

import type { DatabaseAccess } from './access.ts';
import { chunks } from './chunks.ts';
import { counterValues } from './counters.ts';
import type { Store } from './store.ts';

export const createMarks =
  ({ reading }: DatabaseAccess): Store['marks'] =>
  (only) =>
    reading(async (db) => {
      const counters = await counterValues(db);
      const allCells = db.selectFrom('cells').select(['cell', 'version']);
      const cells = [];
      for (const query of only
        ? chunks(only.cells).map((some) => allCells.where('cell', 'in', some))
        : [allCells])
        cells.push(...(await query.execute()));
      const allPlaces = db.selectFrom('places').select(['place', 'version', 'alertsFetchedAtMs']);
      const places = [];
      for (const query of only
        ? chunks(only.places).map((some) => allPlaces.where('place', 'in', some))
        : [allPlaces])
        places.push(...(await query.execute()));
      const watches = only ? [] : await db.selectFrom('watches').select(['site', 'version']).execute();
      return {
        definitions: String(counters.get('definitions') ?? 0),
        keys: String(counters.get('keys') ?? 0),
        cells: new Map(cells.map((row) => [row.cell, row.version])),
        places: new Map(places.map(({ place, ...mark }) => [place, mark])),
        watches: new Map(watches.map((row) => [row.site, row.version])),
      };
    });
