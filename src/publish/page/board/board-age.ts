// How old a board is, and how it is asked for anew.

import { clockPartsAt } from '#core/units/local-time.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { boardLink, sameWith } from '#publish/page/links.ts';
import { zoneShort } from '#publish/page/moments.ts';
import { boardWords } from '#publish/wording/board-words.ts';
import { clockText, dateText } from '#publish/wording/show.ts';
import type { BoardPits } from './board-view.ts';

/** When it was written; how old it is grows by the style sheet alone. `isBoard`: the question about a smoke is on the page. */
export function boardAge(
  { writtenMs, timeZone, reader, isRefreshing, query }: BoardPits,
  isBoard: boolean,
): Markup {
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
  return html`<div class="age written"><p>${words.written(`${dateText(date, reader.language)}, ${clock} ${zone}`)} <span class="ages">${aging}</span></p><p class="again">${again} ${by} <a class="tap" href="${isBoard ? '' : boardLink(query)}#smoke">${words.question}</a></p></div>`;
}
