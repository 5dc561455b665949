// What needs somebody at a site, why in one line, and what to do about it.

import { listWords } from '#publish/wording/list-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { wordOf } from './mark.ts';
import type { Mark } from './standing.ts';

/** Gravest first. */
export const NEED_CODES = [
  'burn-stop',
  'not-covered',
  'burn-hold',
  'undelivered',
  'unanswered',
  'no-forecast',
  'stale',
  'cannot-say',
  'verdict-changed',
] as const;
export type NeedCode = (typeof NEED_CODES)[number];

export interface NeedSeen {
  readonly code: NeedCode;
  /** The sentence of what it rests on; null where the code says it all. */
  readonly text: string | null;
  /** Of a verdict that changed. */
  readonly wasAndIs: readonly [Mark, Mark] | null;
}

export const needsLines = (needs: readonly NeedSeen[], language: Language): Markup | null =>
  needs.length === 0
    ? null
    : html`<ul class="needs">${needs.map((need) => html`<li>${needText(need, language)}</li>`)}</ul>`;

function needText({ code, text, wasAndIs }: NeedSeen, language: Language): Markup {
  const own = listWords(language);
  const words = wordsFor(language);
  const moved =
    wasAndIs === null
      ? null
      : html`: ${own.wasAndIs(wordOf(wasAndIs[0], words), wordOf(wasAndIs[1], words))}`;
  return html`<b>${own.needs[code]}${moved}.</b>${text === null ? null : html` ${text}`} <span class="deed">${own.deeds[code]}</span>`;
}
