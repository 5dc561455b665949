// Silences in force: a page that is looked at says who keeps the texts back, until when and why.

import { localDateAt } from '#core/units/local-time.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import type { Language } from '#publish/wording/show.ts';
import { momentText } from '#publish/wording/show.ts';
import { sayTopic } from '#publish/wording/texts/say-condition.ts';
import { html, type Markup } from './html.ts';
import { momentAt } from './moments.ts';
import type { SiteView } from './site-view.ts';

/** Nothing where there is none. */
export function silenceBlock({ silences, plan, nowMs, reader }: SiteView): Markup | null {
  if (silences.length === 0) return null;
  const own = liveWords(reader.language);
  const rows = silences.map((silence) => {
    const until = momentText(
      silence.untilMs,
      plan.timeZone,
      reader.language,
      localDateAt(nowMs, plan.timeZone),
    );
    return silenceRow(
      { ...silence, isAll: silence.code === null && silence.role === 'office' },
      until,
      reader.language,
    );
  });
  return html`<h2>${own.silenced}</h2><ul class="rows">${rows}</ul>`;
}

/** For pages that have the answer of the API alone. */
export function silenceList({ silences, timeZone, asOf }: NowAnswer, language: Language): Markup | null {
  if (silences.length === 0) return null;
  const rows = silences.map((silence) =>
    silenceRow(
      { ...silence, isAll: silence.code === null && silence.role === 'office' },
      momentAt(silence.until, timeZone, language, asOf),
      language,
    ),
  );
  return html`<ul class="rows">${rows}</ul>`;
}

interface Row {
  readonly by: string;
  readonly code: string | null;
  readonly reason: string;
  readonly isAll: boolean;
}

function silenceRow({ by, code, reason, isAll }: Row, until: string, language: Language): Markup {
  const own = liveWords(language);
  const topic = code === null ? null : sayTopic(code as ConditionCode, language);
  const of = topic === null ? null : html` (${topic})`;
  return html`<li>${isAll ? own.noTexts : own.notAllTexts} <b class="num">${until}</b>${of}, ${own.silencedBy} ${by}: ${reason}</li>`;
}
