// The page of the simulated shift: a button that plays it, and what happened, as a list that needs no script.

import { localDateAt } from '#core/units/local-time.ts';
import { playWords } from '#publish/wording/play-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { clockText, dateText, type Language, type UnitSystem } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import { html, type Markup } from './html.ts';
import { playLink, type Query } from './links.ts';
import { chip } from './mark.ts';
import type { PlayedDay } from './played-day.ts';
import { type PlayedRow, playedRows } from './played-rows.ts';
import { page } from './shell.ts';

export interface PlayView {
  readonly seed: number;
  /** Null: this seed was not played yet. */
  readonly day: PlayedDay | null;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly query: Query;
}

export function playPage(view: PlayView): string {
  const { seed, day, reader, query } = view;
  const words = playWords(reader.language);
  return page({
    title: words.title,
    language: reader.language,
    demo: true,
    choice: { units: reader.units, query },
    zone: day && { timeZone: day.timeZone, atMs: day.lightUpMs },
    isHome: false,
    main: html`<h1 class="all">${words.title}</h1><p>${words.intro}</p>
<form class="play" method="post" action="${playLink(query)}"><p><label for="seed">${words.seed}</label></p>
<p><input id="seed" name="seed" type="number" min="1" max="9999" required value="${seed}"> <button>${words.button}</button></p></form>
${day === null ? html`<p class="note">${words.notYet}</p>` : timeline(day, view)}`,
  });
}

function timeline(day: PlayedDay, { reader }: PlayView): Markup {
  const words = playWords(reader.language);
  const { labels } = wordsFor(reader.language);
  const { timeZone, lightUpMs, lastChargeMs, coveredByMs } = day;
  const date = localDateAt(lightUpMs, timeZone);
  const rows = playedRows(day, { ...reader, timeZone, day: date });
  const clock = (ms: number): string => clockText(ms, timeZone);
  const times = [
    `${labels.lightUp} ${clock(lightUpMs)}`,
    `${lowerFirst(labels.lastCharge)} ${clock(lastChargeMs)}`,
    `${lowerFirst(labels.coveredBy)} ${clock(coveredByMs)}`,
  ];
  return html`<h2>${words.timeline}</h2><p><b>${day.site}, ${dateText(date, reader.language)}.</b> ${times.join(', ')}.</p>
<ol class="rows played">${rows.map((row) => rowOf(row, reader.language))}</ol>`;
}

function rowOf({ kind, time, mark, text, quoted }: PlayedRow, language: Language): Markup {
  const marked = mark && html`${chip(mark, wordsFor(language))} `;
  const told = quoted && html`<p class="age" lang="${quoted.language}">${quoted.text}</p>`;
  return html`<li class="p-${kind}"><b class="num">${time}</b> ${marked}${text}${told}</li>`;
}
