// What one process knows of the store, in memory, to answer from: definitions, keys, and the newest forecast and alerts of
// every site. It follows the store by asking for marks; what it holds is never newer than the store, and how far it may be
// behind is known.

import { placeKeyAt } from '#core/site/place-key.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { ApiKey } from '#store/api-key.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { Marks, Store } from '#store/store.ts';
import { type DefinitionBook, EMPTY_BOOK, readBook } from './definition-book.ts';
import { type DocumentShelf, makeDocumentShelf } from './document-shelf.ts';
import { inTurn } from './in-turn.ts';
import { joinState, NOTHING_HELD, type SiteState } from './site-state.ts';

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
  /** Reads what has changed; one reading at a time, and one that begins after the call. Throws `store_unavailable`. */
  sync(): Promise<void>;
}

export function createMirror({ store, source, steadyMs }: MirrorOptions): Mirror {
  let book = EMPTY_BOOK;
  let keys: readonly ApiKey[] = [];
  let marks: Marks | null = null;
  let syncedAtMs: number | null = null;
  let lastVersion = 0;
  const cells = new Map<string, CellState>();
  const places = new Map<string, PlaceState>();
  const states = new Map<string, SiteState>();
  const shelf: DocumentShelf = makeDocumentShelf(store.documents, source);

  async function follow(): Promise<void> {
    const now = await store.marks();
    const isSameBook = now.definitions === marks?.definitions;
    const newest = isSameBook ? book : readBook(await store.definitions.current(), book);
    if (now.keys !== marks?.keys) keys = await store.keys.all();
    await renew(
      cells,
      now.cells,
      (names) => store.forecasts.cells(names),
      (state) => state.cell,
    );
    const versions = new Map([...now.places].map(([key, { version }]) => [key, version]));
    await renew(
      places,
      versions,
      (names) => store.forecasts.places(names),
      (state) => state.place,
    );
    for (const [key, { alertsFetchedAtMs }] of now.places) {
      const known = places.get(key);
      if (known && known.alertsFetchedAtMs !== alertsFetchedAtMs)
        places.set(key, { ...known, alertsFetchedAtMs });
    }
    await joinAll(newest);
    marks = now;
    syncedAtMs = steadyMs();
  }

  /**
   * Every site with its place, its cell and their documents, in force all at once. A site whose state is the same keeps its
   * version; a new version is one that no site ever had, so that nothing made before fits by chance.
   */
  async function joinAll(newest: DefinitionBook): Promise<void> {
    const wanted = [...newest.sites].map(([key, definition]) => {
      const place = places.get(placeKeyAt(definition.fields.at)) ?? null;
      return { key, definition, place, cell: place?.cell ? (cells.get(place.cell) ?? null) : null };
    });
    await shelf.fetch(wanted);
    book = newest;
    for (const { key, definition, place, cell } of wanted) {
      const before = states.get(key) ?? NOTHING_HELD;
      const held = shelf.held(definition, place, cell);
      const state = joinState(before, { definition, place, cell, ...held }, lastVersion + 1);
      lastVersion = Math.max(lastVersion, state.version);
      states.set(key, state);
    }
    for (const key of states.keys()) if (!book.sites.has(key)) states.delete(key);
  }

  return {
    book: () => book,
    keys: () => keys,
    state: (key) => states.get(key) ?? NOTHING_HELD,
    cell: (name) => cells.get(name) ?? null,
    cells: () => cells.values(),
    place: (key) => places.get(key) ?? null,
    places: () => places.values(),
    syncedAtMs: () => syncedAtMs,
    sync: inTurn(follow),
  };
}

/** Brings a map of states to the versions named: what is new or newer is read, what is gone is dropped. */
async function renew<T extends { readonly version: number }>(
  known: Map<string, T>,
  versions: ReadonlyMap<string, number>,
  read: (names: readonly string[]) => Promise<readonly T[]>,
  nameOf: (state: T) => string,
): Promise<void> {
  const changed = [...versions].filter(([name, version]) => known.get(name)?.version !== version);
  if (changed.length > 0) {
    for (const state of await read(changed.map(([name]) => name))) known.set(nameOf(state), state);
  }
  if (known.size > versions.size)
    for (const name of known.keys()) if (!versions.has(name)) known.delete(name);
}
