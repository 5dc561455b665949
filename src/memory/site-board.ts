// The states of all sites side by side, each put together from its definition, its place, its cell and their documents.
// Where none of these is another, nothing is done.

import type { DocumentShelf, Wanted } from './document-shelf.ts';
import { joinState, NOTHING_HELD, type SiteState } from './site-state.ts';

export interface WantedSite extends Wanted {
  readonly key: string;
}

export interface SiteBoard {
  state(siteKey: string): SiteState;
  /** Fetches the documents that these sites need. To be followed by `put` of the same, without another in between. */
  prepare(wanted: readonly WantedSite[]): Promise<void>;
  /** Puts the states in force; `whole` says that there are no other sites. */
  put(wanted: readonly WantedSite[], whole: boolean): void;
}

export function makeSiteBoard(shelf: DocumentShelf): SiteBoard {
  const joined = new Map<string, { readonly from: WantedSite; readonly state: SiteState }>();
  let lastVersion = 0;

  const isNew = ({ key, definition, place, cell }: WantedSite): boolean => {
    const from = joined.get(key)?.from;
    return from?.definition !== definition || from.place !== place || from.cell !== cell;
  };

  /**
   * A site whose state is the same keeps its version; a new version is one that no site ever had, so that nothing made
   * before fits by chance.
   */
  const join = (from: WantedSite): void => {
    const { key, definition, place, cell } = from;
    const before = joined.get(key)?.state ?? NOTHING_HELD;
    const held = shelf.held(definition, place, cell);
    const state = joinState(before, { definition, place, cell, ...held }, lastVersion + 1);
    lastVersion = Math.max(lastVersion, state.version);
    joined.set(key, { from, state });
  };

  return {
    state: (key) => joined.get(key)?.state ?? NOTHING_HELD,
    prepare: (wanted) => shelf.fetch(wanted.filter(isNew)),
    put(wanted, whole) {
      const news = wanted.filter(isNew);
      for (const one of news) join(one);
      if (!whole) return;
      const isGone = joined.size > wanted.length;
      const keys = new Set(isGone ? wanted.map(({ key }) => key) : []);
      if (isGone) for (const key of joined.keys()) if (!keys.has(key)) joined.delete(key);
      if (isGone || news.length > 0) shelf.keepFor(wanted);
    },
  };
}
