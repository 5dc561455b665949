// What is known of cells and places.

import type { DatabaseAccess } from './access.ts';
import { chunks } from './chunks.ts';
import { createClaims } from './claims.ts';
import { asCell, asPlace } from './states.ts';
import type { ForecastRecords } from './store.ts';

export function createForecasts(access: DatabaseAccess): ForecastRecords {
  return {
    cells: (names) =>
      access.reading(async (db) => {
        const all = db.selectFrom('cells').selectAll();
        const queries = names ? chunks(names).map((some) => all.where('cell', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return rows.map(asCell).sort((a, b) => (a.cell < b.cell ? -1 : 1));
      }),
    places: (keys) =>
      access.reading(async (db) => {
        const all = db.selectFrom('places').selectAll();
        const queries = keys ? chunks(keys).map((some) => all.where('place', 'in', some)) : [all];
        const rows = [];
        for (const query of queries) rows.push(...(await query.execute()));
        return rows.map(asPlace).sort((a, b) => (a.place < b.place ? -1 : 1));
      }),
    ...createClaims(access),
  };
}
