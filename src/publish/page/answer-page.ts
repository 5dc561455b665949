// Where a personal link leads: what was told, and two buttons. Opening the page answers nothing, since programs that scan
// mail open links too.

import type { Verdict } from '#core/rules/finding.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Language } from '#publish/wording/show.ts';
import { html, type Piece } from './html.ts';
import { page } from './shell.ts';

export interface AnswerView {
  readonly site: string;
  readonly verdict: Verdict;
  readonly text: string;
  readonly atMs: number;
  readonly validUntilMs: number;
  readonly timeZone: string;
  readonly nowMs: number;
  /** What this person has said already; null: nothing. */
  readonly said: 'got-it' | 'cannot' | null;
  readonly demo: boolean;
  readonly language: Language;
}

const WORDS = {
  en: {
    gotIt: 'I have seen this and see to it',
    cannot: 'I cannot: ask somebody else',
    saidGotIt: 'You have answered: seen.',
    saidCannot: 'You have answered: cannot. The next person is asked.',
    over: 'This is no longer open; nothing needs to be answered.',
    told: 'Told at',
  },
  es: {
    gotIt: 'Lo vi y me ocupo',
    cannot: 'No puedo: avise a otra persona',
    saidGotIt: 'Su respuesta: visto.',
    saidCannot: 'Su respuesta: no puedo. Se avisa a la siguiente persona.',
    over: 'Este aviso ya no está abierto; no hace falta responder.',
    told: 'Avisado a las',
  },
} as const;

export function answerPage(view: AnswerView): string {
  const words = WORDS[view.language];
  const clock = rfc3339(view.atMs, view.timeZone).slice(11, 16);
  return page({
    title: view.site,
    language: view.language,
    demo: view.demo,
    choice: null,
    zone: { timeZone: view.timeZone, atMs: view.atMs },
    isHome: false,
    main: html`<h1 class="all">${view.site}</h1><p><strong>${wordsFor(view.language).verdicts[view.verdict]}</strong></p><p>${view.text}</p><p>${words.told} ${clock}</p>${answering(view, words)}`,
  });
}

function answering(view: AnswerView, words: (typeof WORDS)[Language]): Piece {
  if (view.said !== null) return html`<p>${view.said === 'got-it' ? words.saidGotIt : words.saidCannot}</p>`;
  if (view.nowMs > view.validUntilMs) return html`<p>${words.over}</p>`;
  return html`<form method="post"><p><button name="answer" value="got-it">${words.gotIt}</button></p><p><button name="answer" value="cannot">${words.cannot}</button></p></form>`;
}
