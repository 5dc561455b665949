// The days from today on, one line each: word, times or the first reason. Each line leads to its day.

import type { PlanAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { dateText } from '#publish/wording/show.ts';
import type { Words } from '#publish/wording/words.ts';
import { html, type Markup } from './html.ts';
import { sameWith } from './links.ts';
import { chip } from './mark.ts';
import { clockAt } from './moments.ts';
import { firstReason } from './reasons.ts';
import type { SiteView } from './site-view.ts';
import { type Standing, standingOf } from './standing.ts';

export function weekList(view: SiteView): Markup {
  const { labels } = wordsFor(view.reader.language);
  return html`<h2>${labels.nextDays}</h2><ul class="rows week">${view.week.map((day) => dayRow(view, day))}</ul>`;
}

function dayRow({ plan, forecast, nowMs, now, reader, query }: SiteView, day: PlanAnswer): Markup {
  const words = wordsFor(reader.language);
  const { mark, state } = standingOf(day, forecast, nowMs, now?.verdict ?? null);
  const current = day.day === plan.day ? html` aria-current="page"` : null;
  const text =
    mark === 'go' && day.lightUp !== null && day.lastCharge !== null
      ? html`<span class="why num">${clockAt(day.lightUp, day.timeZone)} – ${clockAt(day.lastCharge, day.timeZone)}</span>`
      : html`<span class="why long">${reasonText(day, state, words.labels)}</span>`;
  return html`<li><a href="${sameWith(query, { day: day.day })}"${current}><b>${dateText(day.day, reader.language)}</b>${chip(mark, words)}${text}</a></li>`;
}

function reasonText(day: PlanAnswer, state: Standing['state'], labels: Words['labels']): string {
  if (state === 'void') return labels.notFresh;
  if (state === 'over' && day.lastCharge !== null)
    return `${labels.noMoreWoodSince} ${clockAt(day.lastCharge, day.timeZone)}.`;
  return firstReason(day) ?? labels.noWindow;
}
