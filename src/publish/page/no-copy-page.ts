// What the worker shows where the server does not answer and no copy is kept: that nobody can say. Part of the worker, and
// so as small as it can be.

import { copyWords } from '#publish/wording/copy-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { html, textOf, trusted } from './html.ts';

const STYLE = trusted(
  ':root{color-scheme:light dark}body{font:20px/1.4 system-ui,sans-serif;margin:16px}b{display:inline-block;border:4px dashed;padding:4px 10px;font-size:40px}a{display:inline-block;padding:12px 0}',
);

export function noCopyPage(language: Language): string {
  const { noCopyTitle, noCopy, again } = copyWords(language);
  return textOf(
    html`<!doctype html><html lang="${language}"><meta charset="utf-8"><meta name="viewport" content="width=device-width,initial-scale=1"><title>${noCopyTitle}</title><style>${STYLE}</style><main><h1>${noCopyTitle}</h1><p><b>${wordsFor(language).cannotSay}</b></p><p>${noCopy}</p><p><a href="">${again}</a></p></main>`,
  );
}
