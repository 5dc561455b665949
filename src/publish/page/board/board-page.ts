// The board of a dispatch centre: who burns now, who may burn today, and which burn a smoke comes from. It needs no script.

import { clockPartsAt } from '#core/units/local-time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { sameWith } from '#publish/page/links.ts';
import { zoneShort } from '#publish/page/moments.ts';
import { page } from '#publish/page/shell.ts';
import { boardWords } from '#publish/wording/board-words.ts';
import { clockText, dateText } from '#publish/wording/show.ts';
import { burnRow, goRow, unplacedRows } from './board-rows.ts';
import { BOARD_STYLE } from './board-style.ts';
import type { BoardView } from './board-view.ts';
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
    main: html`<h1 class="all">${words.title}</h1><p class="sum">${words.count(view.burnCount, view.goCount)}</p>${age(view)}
<div class="board"><div><h2>${words.burnsNow}</h2>${burning}<h2>${words.mayBurn}</h2>${ahead}<p class="note">${words.notYet}</p>${pageLinks(view)}</div>
<div class="aside">${view.map}${smokeForm(view)}</div></div><p class="note">${words.fromTaps}</p>`,
  });
}

/** When it was written; how old it is grows by the style sheet alone. */
function age({ writtenMs, timeZone, reader, isRefreshing, query }: BoardView): Markup {
  const words = boardWords(reader.language);
  const seconds = String(Math.floor(writtenMs / 1000) % 60).padStart(2, '0');
  const clock = clockText(writtenMs, timeZone).replace(/(:\d\d)/, `$1:${seconds}`);
  const { date } = clockPartsAt(writtenMs, timeZone);
  const zone = zoneShort(timeZone, reader.language, writtenMs);
  const aging = words.aging.map((text, i) => html`<span class="aging a${i}" data-t="${text}"></span>`);
  const again = html`<a class="tap" href="${sameWith(query, {})}">${words.refresh}</a>`;
  const by = isRefreshing
    ? html`${words.refreshing} <a class="tap" href="${sameWith(query, { every: null })}">${words.refreshOff}</a>`
    : html`<a class="tap" href="${sameWith(query, { every: '60' })}">${words.refreshBy}</a>`;
  return html`<div class="age written"><p>${words.written(`${dateText(date, reader.language)}, ${clock} ${zone}`)} <span class="ages">${aging}</span></p><p class="again">${again} ${by} <a class="tap" href="#smoke">${words.question}</a></p></div>`;
}

function pageLinks({ page: shown, pages, query, reader }: BoardView): Markup | null {
  if (pages === 1) return null;
  const numbers = Array.from({ length: pages }, (_, i) => i + 1);
  const link = (n: number): Markup =>
    n === shown
      ? html`<b aria-current="page">${String(n)}</b> `
      : html`<a href="${sameWith(query, { page: String(n) })}">${String(n)}</a> `;
  return html`<nav class="pages" aria-label="${boardWords(reader.language).pages}">${numbers.map(link)}</nav>`;
}
