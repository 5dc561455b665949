// What one process knows of the store, in memory, to answer from: definitions, keys, and the newest forecast and alerts of
// every site. It follows the store by asking for marks; what it holds is never newer than the store, and how far it may be
// behind is known.

import type { GridSource } from '#sources/grid-source.ts';
import type { ApiKey } from '#store/api-key.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { Marks, Store } from '#store/store.ts';
import { type DefinitionBook, EMPTY_BOOK, readBook } from './definition-book.ts';
import { makeDocumentShelf } from './document-shelf.ts';
import { inTurn, inTurnOf, oneAfterTheOther } from './in-turn.ts';
import { makeSiteBoard, type WantedSite } from './site-board.ts';
import type { SiteDefinition } from './site-definition.ts';
import type { SiteState } from './site-state.ts';

export interface MirrorOptions {
  readonly store: Store;
  readonly source: Pick<GridSource, 'read'>;
  readonly steadyMs: () => number;
}

export interface Mirror {
  book(): DefinitionBook;
  keys(): readonly ApiKey[];
  /** What is held for a site. */
  state(siteKey: string): SiteState;
  cell(cell: string): CellState | null;
  cells(): Iterable<CellState>;
  place(placeKey: string): PlaceState | null;
  places(): Iterable<PlaceState>;
  /** When the store was last read without a fault, by the steady clock; null before the first time. */
  syncedAtMs(): number | null;
  /** Keys of the sites that lie in a cell, as far as known. */
  sitesIn(cell: string): readonly string[];
  /** Reads what has changed; one reading at a time, and one that begins after the call. Throws `store_unavailable`. */
  sync(): Promise<void>;
  /** The same for some sites alone and their cells, at the cost of these. Throws as above. */
  syncSites(siteKeys: readonly string[]): Promise<void>;
}

export function createMirror({ store, source, steadyMs }: MirrorOptions): Mirror {
  let book = EMPTY_BOOK;
  let sitesAt: ReadonlyMap<string, readonly string[]> = new Map();
  let keys: readonly ApiKey[] = [];
  let marks: Marks | null = null;
  let syncedAtMs: number | null = null;
  const cells = new Map<string, CellState>();
  const places = new Map<string, PlaceState>();
  const board = makeSiteBoard(makeDocumentShelf(store.documents, source));
  const alone = oneAfterTheOther();

  async function follow(): Promise<void> {
    const now = await store.marks();
    const isSameBook = now.definitions === marks?.definitions;
    const newest = isSameBook ? book : readBook(await store.definitions.current(), book);
    if (now.keys !== marks?.keys) keys = await store.keys.all();
    await renewCells(store, cells, now.cells);
    dropGone(cells, now.cells);
    await renewPlaces(store, places, now.places);
    dropGone(places, now.places);
    const wanted = [...newest.sites].map(wantedOf);
    await board.prepare(wanted);
    if (!isSameBook)
      sitesAt = Map.groupBy(newest.sites.keys(), (key) => newest.sites.get(key)?.placeKey ?? '');
    // All in force at once.
    book = newest;
    board.put(wanted, true);
    marks = now;
    syncedAtMs = steadyMs();
  }

  /** What touches more than the cells of these sites is a matter of the whole. */
  async function followSites(some: readonly string[]): Promise<void> {
    const wanted = some
      .map((key) => [key, book.sites.get(key)] as const)
      .filter(isThere)
      .map(wantedOf);
    const now = await store.marks({
      cells: [...new Set(wanted.flatMap(({ place }) => place?.cell ?? []))],
      places: [...new Set(wanted.map(({ definition }) => definition.placeKey))],
    });
    const isMore = now.definitions !== marks?.definitions || now.keys !== marks.keys;
    if (isMore || [...now.places].some(([key, { version }]) => places.get(key)?.version !== version))
      return await follow();
    await renewCells(store, cells, now.cells);
    await renewPlaces(store, places, now.places);
    const newest = wanted.map(({ key, definition }) => wantedOf([key, definition]));
    await board.prepare(newest);
    board.put(newest, false);
  }

  function wantedOf([key, definition]: readonly [string, SiteDefinition]): WantedSite {
    const place = places.get(definition.placeKey) ?? null;
    return { key, definition, place, cell: place?.cell ? (cells.get(place.cell) ?? null) : null };
  }

  return {
    book: () => book,
    keys: () => keys,
    state: board.state,
    cell: (name) => cells.get(name) ?? null,
    cells: () => cells.values(),
    place: (key) => places.get(key) ?? null,
    places: () => places.values(),
    sitesIn: (cell) =>
      [...places.values()].filter((p) => p.cell === cell).flatMap((p) => sitesAt.get(p.place) ?? []),
    syncedAtMs: () => syncedAtMs,
    sync: inTurn(() => alone(follow)),
    syncSites: inTurnOf((some) => alone(() => followSites(some))),
  };
}

const isThere = (
  entry: readonly [string, SiteDefinition | undefined],
): entry is readonly [string, SiteDefinition] => entry[1] !== undefined;

function renewCells(store: Store, known: Map<string, CellState>, versions: Marks['cells']): Promise<void> {
  return renew(known, versions, store.forecasts.cells, ({ cell }) => cell);
}

async function renewPlaces(
  store: Store,
  known: Map<string, PlaceState>,
  marked: Marks['places'],
): Promise<void> {
  const versions = new Map([...marked].map(([key, { version }]) => [key, version]));
  await renew(known, versions, store.forecasts.places, ({ place }) => place);
  for (const [key, { alertsFetchedAtMs }] of marked) {
    const place = known.get(key);
    if (place && place.alertsFetchedAtMs !== alertsFetchedAtMs)
      known.set(key, { ...place, alertsFetchedAtMs });
  }
}

/** Brings a map of states to the versions named: what is new or newer is read. */
async function renew<T extends { readonly version: number }>(
  known: Map<string, T>,
  versions: ReadonlyMap<string, number>,
  read: (names: readonly string[]) => Promise<readonly T[]>,
  nameOf: (state: T) => string,
): Promise<void> {
  const changed = [...versions].filter(([name, version]) => known.get(name)?.version !== version);
  if (changed.length === 0) return;
  for (const state of await read(changed.map(([name]) => name))) known.set(nameOf(state), state);
}

function dropGone(known: Map<string, unknown>, versions: ReadonlyMap<string, unknown>): void {
  if (known.size > versions.size)
    for (const name of known.keys()) if (!versions.has(name)) known.delete(name);
}
