// What a browser gets where there is no answer. No answer is no go, and the page says no more than it knows.

import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { html } from './html.ts';
import { chip } from './mark.ts';
import { page } from './shell.ts';

export interface ProblemView {
  readonly status: number;
  /** Title and detail are English, as in the published problem details. */
  readonly title: string;
  readonly detail: string;
  readonly demo: boolean;
  readonly language: Language;
}

export function problemPage({ status, title, detail, demo, language }: ProblemView): string {
  const words = wordsFor(language);
  // A wrong address says nothing of the pit; a fault of ours, or of the source, leaves the reader without an answer.
  const isOurs = status >= 500;
  return page({
    title: `${title} (${status})`,
    language,
    demo,
    choice: null,
    zone: null,
    isHome: false,
    main: html`<div lang="en"><h1 class="all">${title} (${status})</h1><p>${detail}</p></div>${isOurs ? html`<p>${chip('unsaid', words)} ${words.orders.hold}</p>` : null}`,
  });
}
