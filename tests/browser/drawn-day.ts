// The page of an invented day as it is served. No test in here.

import { sitePage } from '#publish/page/site-page.ts';
import { siteView } from '../publish/page/invented-days.ts';
import { LOOKS } from '../publish/page/looks.ts';

export type LookName = keyof typeof LOOKS;
export const lookNames = Object.keys(LOOKS) as LookName[];

export interface Wanted {
  readonly language?: 'en' | 'es';
  /** Null: the reader has chosen none. */
  readonly look?: 'day' | 'night' | null;
}

/** Made once each: planning a day takes longer than drawing it. */
const made = new Map<string, ReturnType<typeof siteView>>();

export function drawnDay(name: LookName, { language = 'en', look = null }: Wanted = {}): string {
  const key = `${name} ${language}`;
  const view = made.get(key) ?? siteView({ ...LOOKS[name], language });
  made.set(key, view);
  return sitePage({
    ...view,
    query: { ...view.query, lang: language, ...(look === null ? {} : { look }) },
  });
}
