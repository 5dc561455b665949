// Cells and places: rows as states, and states written over what was known, with the version counted in the database.

import { type RawBuilder, type Selectable, sql, type Transaction } from 'kysely';
import type { Batch, PlacePatch } from './batch.ts';
import type { CellState, StoredFault } from './cell-state.ts';
import { chunks } from './chunks.ts';
import { fromJson, toJson } from './json.ts';
import type { PlaceState } from './place-state.ts';
import type { Tables } from './tables.ts';

export const asCell = (row: Selectable<Tables['cells']>): CellState => ({
  ...row,
  fault: faultIn(row.fault),
});

export const asPlace = (row: Selectable<Tables['places']>): PlaceState => ({
  ...row,
  located: fromJson(row.located),
  remembered: fromJson(row.remembered),
  fault: faultIn(row.fault),
});

const faultIn = (text: string | null): StoredFault | null => (text === null ? null : fromJson(text));
const faultOut = (fault: StoredFault | null): string | null => (fault === null ? null : toJson(fault));

export async function putCells(
  transaction: Transaction<Tables>,
  cells: NonNullable<Batch['cells']>,
): Promise<void> {
  const rows = lastOfEach(cells, (c) => c.cell).map((c) => ({ ...c, fault: faultOut(c.fault), version: 1 }));
  for (const some of chunks(rows)) {
    await transaction
      .insertInto('cells')
      .values(some)
      .onConflict((conflict) =>
        conflict.column('cell').doUpdateSet((e) => ({
          ...given(some[0] ?? {}),
          version: e('cells.version', '+', 1),
        })),
      )
      .execute();
  }
}

/** Writes what is named of each place and leaves the rest as it is. */
export async function putPlaces(
  transaction: Transaction<Tables>,
  places: NonNullable<Batch['places']>,
): Promise<void> {
  // One statement writes the same columns of all its rows.
  const alike = Map.groupBy(
    lastOfEach(places, (p) => p.place),
    (p) => Object.keys(p).sort().join(),
  );
  for (const [, patches] of alike) {
    const rows = patches.map(packPatch);
    for (const some of chunks(rows)) {
      await transaction
        .insertInto('places')
        .values(some.map((row) => ({ located: 'null', remembered: 'null', ...row, version: 1 })))
        .onConflict((conflict) =>
          conflict.column('place').doUpdateSet((e) => ({
            ...given(some[0] ?? {}),
            version: e('places.version', '+', 1),
          })),
        )
        .execute();
    }
  }
}

function packPatch(patch: PlacePatch) {
  const { located, remembered, fault, ...plain } = patch;
  return {
    ...plain,
    ...('located' in patch ? { located: toJson(located) } : {}),
    ...('remembered' in patch ? { remembered: toJson(remembered) } : {}),
    ...(fault === undefined ? {} : { fault: faultOut(fault) }),
  };
}

/** An older reading never replaces a newer one. */
export async function noteAlertsRead(
  transaction: Transaction<Tables>,
  { places, fetchedAtMs }: NonNullable<Batch['alertsRead']>[number],
): Promise<void> {
  for (const some of chunks([...places].sort())) {
    await transaction
      .updateTable('places')
      .set({ alertsFetchedAtMs: fetchedAtMs })
      .where('place', 'in', some)
      .where((e) => e.or([e('alertsFetchedAtMs', 'is', null), e('alertsFetchedAtMs', '<', fetchedAtMs)]))
      .execute();
  }
}

/** Every column set to what the refused insert brought. */
const given = (row: object): Record<string, RawBuilder<never>> =>
  Object.fromEntries(Object.keys(row).map((column) => [column, sql.ref<never>(`excluded.${column}`)]));

/** One of each, the last one given, in an order that is the same for all who write. */
function lastOfEach<T>(list: readonly T[], nameOf: (item: T) => string): T[] {
  const byName = new Map(list.map((item) => [nameOf(item), item]));
  return [...byName].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, item]) => item);
}
