// The board of a dispatch centre: who burns now, who may burn today, and which burn a smoke comes from. It needs no script.

import { html, type Markup } from '#publish/page/html.ts';
import { groundLink, sameWith } from '#publish/page/links.ts';
import { page } from '#publish/page/shell.ts';
import { boardWords } from '#publish/wording/board-words.ts';
import { groundWords } from '#publish/wording/ground-words.ts';
import { boardAge } from './board-age.ts';
import { burnRow, goRow, unplacedRows } from './board-rows.ts';
import { BOARD_STYLE } from './board-style.ts';
import type { BoardPits, BoardView } from './board-view.ts';
import { smokeForm } from './smoke-form.ts';

export function boardPage(view: BoardView): string {
  const { reader, query, timeZone, writtenMs, burns, goes } = view;
  const words = boardWords(reader.language);
  const burning =
    view.burnCount === 0
      ? html`<p>${words.nothingBurns}</p>`
      : html`${unplacedRows(view)}${burns.length > 0 ? html`<ul class="rows pits">${burns.map((row) => burnRow(row, view))}</ul>` : null}`;
  const ahead =
    goes.length === 0
      ? html`<p>${words.noneMayBurn}</p>`
      : html`<p class="note">${words.mayBurnNote}</p><ul class="rows pits">${goes.map((row) => goRow(row, view))}</ul>`;
  return page({
    title: `${words.title}: ${words.count(view.burnCount, view.goCount)}`,
    language: reader.language,
    demo: view.demo,
    choice: { units: reader.units, query },
    zone: { timeZone, atMs: writtenMs },
    isHome: false,
    style: BOARD_STYLE,
    main: html`<h1 class="all">${words.title}</h1><p class="sum">${words.count(view.burnCount, view.goCount)}</p>${boardAge(view, true)}
<div class="board"><div><h2>${words.burnsNow}</h2>${burning}<h2>${words.mayBurn}</h2>${ahead}<p class="note">${words.notYet}</p>${pageLinks(view)}</div>
<div class="aside">${view.map}${view.hasGround ? html`<p><a class="tap" href="${groundLink(query)}">${groundWords(reader.language).toMap}</a></p>` : null}${smokeForm(view)}</div></div><p class="note">${words.fromTaps}</p>`,
  });
}

export function pageLinks({ page: shown, pages, query, reader }: BoardPits): Markup | null {
  if (pages === 1) return null;
  const numbers = Array.from({ length: pages }, (_, i) => i + 1);
  const link = (n: number): Markup =>
    n === shown
      ? html`<b aria-current="page">${String(n)}</b> `
      : html`<a href="${sameWith(query, { page: String(n) })}">${String(n)}</a> `;
  return html`<nav class="pages" aria-label="${boardWords(reader.language).pages}">${numbers.map(link)}</nav>`;
}
