// The days from today on, one line each: word, times or the first reason. Each line leads to its day.

import type { PlanAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { dateText, type Language } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { sameWith } from './links.ts';
import { chip } from './mark.ts';
import { burnText, lateText, pausesText, timeOf } from './plan-text.ts';
import { firstReason } from './reasons.ts';
import { nowFor, type SiteView } from './site-view.ts';
import type { NowWindow, Standing } from './standing.ts';
import { standingOfView } from './with-live.ts';

export function weekList(view: SiteView): Markup {
  const { labels } = wordsFor(view.reader.language);
  return html`<div class="scr"><h2>${labels.nextDays}</h2><ul class="rows week">${view.week.map((day) => dayRow(view, day))}</ul></div>`;
}

function dayRow(view: SiteView, day: PlanAnswer): Markup {
  const { plan, live, reader, query } = view;
  const { language } = reader;
  const words = wordsFor(language);
  const standing = standingOfView(view, day);
  const { mark } = standing;
  const current = day.day === plan.day ? html` aria-current="page"` : null;
  const isGo = mark === 'go' && day.lightUp !== null && day.lastCharge !== null;
  const times = isGo
    ? `${timeOf(day.lightUp ?? '', day, language)} – ${timeOf(day.lastCharge ?? '', day, language)}`
    : null;
  const isShort = times !== null && times.length < 24 && day.pauses.length === 0;
  const ofDay = (): string => dayText(day, standing, language, nowFor(view, day));
  const ofLive = standing.byLive && live !== null ? live.whatToDo : null;
  const text = times === null ? (ofLive ?? ofDay()) : `${times}${pausesText(day, language)}`;
  return html`<li><a href="${sameWith(query, { day: day.day })}"${current}><b>${dateText(day.day, language)}</b>${chip(mark, words)}<span class="why ${isShort ? 'num' : 'long'}">${text}</span></a></li>`;
}

/** What a day says that has no go to show: too late, over, still to come today, or why there is none. */
export function dayText(
  day: PlanAnswer,
  { state }: Standing,
  language: Language,
  now: NowWindow | null | undefined,
): string {
  const { labels } = wordsFor(language);
  if (state === 'void') return labels.notFresh;
  if (state === 'charge') return lateText(day, language, now);
  if (state === 'over' && day.lastCharge !== null)
    return `${labels.noMoreWoodSince} ${timeOf(day.lastCharge, day, language)}.`;
  const burn = burnText(day, language);
  return burn === null ? (firstReason(day) ?? labels.noWindow) : `${burn}.`;
}
