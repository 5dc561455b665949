// What stands at a pit that burns: the worse of plan and watch, what the crew was told, and the last reading.

import type { NoticeAnswer, ObservationAnswer } from '#publish/wire-watch.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { readingWords } from '#publish/wording/reading-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { amountText, bearingText } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { chip } from './mark.ts';
import { momentAt } from './moments.ts';
import type { SiteView } from './site-view.ts';
import { liveMark } from './with-live.ts';

/** Nothing where no burn is open. */
export function liveBlock({ live, reader }: SiteView): Markup | null {
  if (live === null || live.burn === null) return null;
  const words = wordsFor(reader.language);
  const own = liveWords(reader.language);
  const at = (instant: string): string => momentAt(instant, live.timeZone, reader.language, live.asOf);
  const { burn, observation, text, whatToDo } = live;
  const raised = live.notices.filter(({ raisedAt }) => raisedAt !== null);
  const list =
    raised.length === 0
      ? html`<p>${own.nothingTold}</p>`
      : html`<p>${own.toldOf}</p><ul class="rows">${raised.map((n) => noticeRow(n, reader, at))}</ul>`;
  const reading =
    observation === null
      ? html`<p class="note">${own.noReading}</p>`
      : html`<p class="age">${own.lastReading} ${at(observation.observedAt)} (${observation.station}): ${readingText(observation, reader)}</p>`;
  return html`<h2>${own.title}</h2><p>${chip(liveMark(live), words)} <b>${own.states[burn.state]}, ${own.since} ${at(burn.since)}.</b> ${whatToDo}</p>
${text === whatToDo ? null : html`<p>${text}</p>`}${list}${reading}`;
}

function noticeRow(
  { verdict, raisedAt, condition, acknowledgedBy }: NoticeAnswer,
  { language }: SiteView['reader'],
  at: (instant: string) => string,
): Markup {
  const own = liveWords(language);
  const told = verdict ?? condition.verdict;
  const asked = told === 'go' ? '' : ` ${own.notAnswered}`;
  const answer = acknowledgedBy === null ? asked : ` ${own.answeredBy} ${acknowledgedBy}.`;
  // Advice is no go: the word must not stand beside a fire that is to be put out.
  const mark = told === 'go' ? null : html`${chip(told, wordsFor(language))} `;
  return html`<li>${mark}<b class="num">${at(raisedAt ?? '')}</b> ${condition.text}${answer}</li>`;
}

function readingText(o: ObservationAnswer, { language, units }: SiteView['reader']): string {
  const words = readingWords(language);
  const speed = (mps: number): string => amountText('windSpeed', mps, units, language);
  const mps = o.windSpeedMps;
  const wind = (): string => {
    if (o.wind === 'calm') return words.calm;
    if (mps === null || o.wind === 'missing') return words.noWind;
    return o.windFrom === null
      ? words.variable(speed(mps))
      : words.wind(speed(mps), bearingText(o.windFrom, language));
  };
  const humidity = o.relativeHumidityPct;
  return [
    wind(),
    ...(o.gustMps === null ? [] : [words.gust(speed(o.gustMps))]),
    ...(humidity === null ? [] : [words.humidity(amountText('relativeHumidity', humidity, units, language))]),
  ].join(', ');
}
