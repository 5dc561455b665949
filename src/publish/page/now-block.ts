// What holds at this moment, and what it asks of the crew.

import { wordsFor } from '#publish/wording/say.ts';
import { html, type Markup } from './html.ts';
import { chip } from './mark.ts';
import { momentAt, msOf } from './moments.ts';
import { lateText } from './plan-text.ts';
import { reasonsNow } from './reasons.ts';
import type { SiteView } from './site-view.ts';
import { isTrusted, type Mark, markOf, type Standing } from './standing.ts';
import { liveMark } from './with-live.ts';

/** More reasons than this are left to the list of windows. */
const MOST_REASONS = 3;

const RANK: Readonly<Record<Mark, number>> = { go: 0, hold: 1, unsaid: 1, stop: 2 };

/** Nothing on another day than today. What the watch says is never less than what the plan says. */
export function nowBlock(view: SiteView, { state }: Standing): Markup | null {
  const { now, nowMs, dayLabel, live, plan, reader } = view;
  if (dayLabel !== 'today') return null;
  const words = wordsFor(reader.language);
  const { labels } = words;
  if (live !== null && RANK[liveMark(live)] > RANK[markOf(now)]) {
    const ground = live.text === live.whatToDo ? null : html` ${live.text}`;
    return html`<h2>${labels.now}</h2><p>${chip(liveMark(live), words)} ${live.whatToDo}${ground}</p>`;
  }
  if (now === null || (now.verdict === 'go' && !isTrusted(plan, view.forecast, nowMs))) {
    return html`<h2>${labels.now}</h2><p>${chip('unsaid', words)} ${words.orders.hold}</p>`;
  }
  const until = momentAt(now.to, plan.timeZone, reader.language, plan.workedOutAt);
  // Go to charge is no go to light, whatever the day's burn is.
  if (now.verdict === 'go' && isLate(view, state)) {
    const order = state === 'over' ? words.orders.hold : lateText(plan, reader.language, now);
    return html`<h2>${labels.now}</h2><p>${chip('hold', words)} ${order}</p>`;
  }
  const latest =
    now.lightUpBy === null
      ? null
      : html` ${labels.mayLightUntil} ${momentAt(now.lightUpBy, plan.timeZone, reader.language, plan.workedOutAt)}.`;
  const reasons = reasonsNow(now, nowMs).slice(0, MOST_REASONS);
  return html`<h2>${labels.now}</h2><p>${chip(markOf(now), words)} ${labels.until} <b class="num">${until}</b>. ${words.orders[now.verdict]}${latest}</p>
${reasons.length > 0 ? html`<ul>${reasons.map((r) => html`<li>${r.text}</li>`)}</ul>` : null}`;
}

const isLate = ({ now, nowMs }: SiteView, state: Standing['state']): boolean =>
  state === 'charge' ||
  state === 'over' ||
  (now !== null && now.lightUpBy !== null && nowMs >= msOf(now.lightUpBy));
