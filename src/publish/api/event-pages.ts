// Pieces of the log as streams tell them, read once for all who follow alike and are equally far. One of these lives for a
// round only: what a site is named now goes with its events.

import type { EventStreamsOptions, Following } from './event-streams.ts';

export interface EventPage {
  readonly lines: readonly { readonly position: number; readonly data: string }[];
  /** Everything up to it was looked at. */
  readonly next: number;
  readonly missingUpTo: number | null;
}

export interface EventPages {
  read(following: Following, position: number): Promise<EventPage>;
}

const MOST = 100;

export function createEventPages({
  events,
  answers,
}: Pick<EventStreamsOptions, 'events' | 'answers'>): EventPages {
  const pages = new Map<string, Promise<EventPage>>();
  const make = async ({ viewer, siteKey, kinds, reader }: Following, after: number): Promise<EventPage> => {
    const { next, missingUpTo, ...seen } = await events.after(viewer, { after, most: MOST, siteKey, kinds });
    const lines = answers(viewer, reader, seen.events).map((answer) => ({
      position: Number(answer.id),
      data: JSON.stringify(answer),
    }));
    return { lines, next, missingUpTo };
  };
  return {
    read(following, position) {
      const { viewer, siteKey, kinds, reader } = following;
      const alike = [viewer.organisation, viewer.sites, siteKey, kinds, reader.lang, reader.units, position];
      const name = JSON.stringify(alike);
      const known = pages.get(name) ?? make(following, position);
      pages.set(name, known);
      return known;
    },
  };
}
