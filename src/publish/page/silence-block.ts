// Silences in force: a page that is looked at says who keeps the texts back, until when and why.

import { localDateAt } from '#core/units/local-time.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { momentText } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import type { SiteView } from './site-view.ts';

/** Nothing where there is none. */
export function silenceBlock({ silences, plan, nowMs, reader }: SiteView): Markup | null {
  if (silences.length === 0) return null;
  const own = liveWords(reader.language);
  const rows = silences.map(({ by, code, role, reason, untilMs }) => {
    const until = momentText(untilMs, plan.timeZone, reader.language, localDateAt(nowMs, plan.timeZone));
    const what = code === null && role === 'office' ? own.noTexts : own.notAllTexts;
    return html`<li>${what} <b class="num">${until}</b>, ${own.silencedBy} ${by}: ${reason}</li>`;
  });
  return html`<h2>${own.silenced}</h2><ul class="rows">${rows}</ul>`;
}
