// Addresses of the pages. A link changes one thing and keeps the rest of what the reader chose.

export type Query = Readonly<Record<string, string>>;

/** What the reader chose for every page; a day belongs to one page. */
const CHOICES = ['lang', 'units', 'look'];

/** The same page with some parameters changed; null takes one away. */
export function sameWith(query: Query, change: Readonly<Record<string, string | null>>): string {
  const all: Record<string, string | null> = { ...query, ...change };
  const kept = Object.entries(all).filter((entry): entry is [string, string] => entry[1] !== null);
  return `?${new URLSearchParams(kept)}`;
}

export const homeLink = (query: Query): string => `/${choicesOf(query)}`;

export const siteLink = (id: string, query: Query, day: string | null): string =>
  `/sites/${encodeURIComponent(id)}${choicesOf(day === null ? query : { ...query, day }, day !== null)}`;

export const boardLink = (query: Query): string => `/board${choicesOf(query)}`;
/** The same over the ground of the operator's tile file. */
export const groundLink = (query: Query): string => `/board/map${choicesOf(query)}`;
/** A day as it was known then. */
export const historyLink = (id: string, query: Query, day: string): string =>
  `/sites/${encodeURIComponent(id)}/history${choicesOf({ ...query, day }, true)}`;

export const sheetLink = (id: string, query: Query, day: string): string =>
  `/sites/${encodeURIComponent(id)}/sheet${choicesOf({ ...query, day }, true)}`;

/** Where the form for hand-held meters is sent. */
export const readingLink = (id: string, query: Query): string =>
  `/sites/${encodeURIComponent(id)}/readings${choicesOf(query)}#reading`;

/** Who is signed in; a key is sent to the same address. */
export const signInLink = (query: Query): string => `/sign-in${choicesOf(query)}`;

export const signOutLink = (query: Query): string => `/sign-out${choicesOf(query)}`;
/** What stands at a site at this moment, for the cab. */
export const glanceLink = (id: string, query: Query): string =>
  `/sites/${encodeURIComponent(id)}/now${choicesOf(query)}`;

/** Of the demonstration alone. */
export const playLink = (query: Query): string => `/demo/play${choicesOf(query)}`;

function choicesOf(query: Query, withDay = false): string {
  const wanted = withDay ? ['day', ...CHOICES] : CHOICES;
  const kept = wanted.flatMap((key): [string, string][] =>
    query[key] === undefined ? [] : [[key, query[key]]],
  );
  return kept.length === 0 ? '' : `?${new URLSearchParams(kept)}`;
}
