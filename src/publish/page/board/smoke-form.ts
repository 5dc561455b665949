// The question which burn a smoke comes from, and its answer. A form that is sent with GET: the answer has an address.

import { telLink } from '#core/site/site-contact.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { sameWith } from '#publish/page/links.ts';
import { momentAt, msOf, zoneShort } from '#publish/page/moments.ts';
import type { SmokeSourceAnswer, SmokeSourcesAnswer } from '#publish/wire-smoke.ts';
import { boardWords } from '#publish/wording/board-words.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { distanceText } from '#publish/wording/show.ts';
import type { BoardView } from './board-view.ts';
import { decimalText } from './position-text.ts';

/** Of those whose smoke went elsewhere. */
const MOST_OUTSIDE = 10;
/** Farther from every site than this, the place is more likely a slip [m]. */
const FAR_M = 500_000;

export function smokeForm(view: BoardView): Markup {
  const { question, query, reader } = view;
  const words = boardWords(reader.language);
  const { typed, choices } = question;
  const kept = Object.entries(query).map(
    ([name, value]) => html`<input type="hidden" name="${name}" value="${value}">`,
  );
  const options = [{ value: '', label: words.noChoice }, ...choices].map(
    ({ value, label }) =>
      html`<option value="${value}"${value === typed.place ? html` selected` : null}>${label}</option>`,
  );
  const choice =
    choices.length === 0
      ? null
      : html`<p><label for="q-place">${words.choice}</label><select id="q-place" name="place">${options}</select></p>`;
  return html`<h2 id="smoke">${words.question}</h2><p class="note">${words.questionNote}</p>
<form class="reading" method="get" action="/board#smoke">${kept}<p><label for="q-at">${words.at}</label> <span class="note" id="q-at-hint">${words.atHint}</span><input id="q-at" name="at" maxlength="120" autocomplete="off" value="${typed.at}"${pointers(view, 'at')}>${fault(view, 'at')}</p>
${choice}<p><label for="q-time">${words.when}</label> <span class="note" id="q-time-hint">${words.whenHint}</span><input id="q-time" name="time" type="datetime-local" value="${typed.time}"${pointers(view, 'time')}>${fault(view, 'time')}</p>
<p><button>${words.ask}</button></p></form>${question.answer && answerPart(question.answer, view)}`;
}

const whyOf = ({ question }: BoardView, field: 'at' | 'time') =>
  question.faults.find((one) => one.field === field)?.why ?? null;

function fault(view: BoardView, field: 'at' | 'time'): Markup | null {
  const why = whyOf(view, field);
  const { faults } = boardWords(view.reader.language);
  return why && html`<span class="bad" role="alert" id="q-${field}-bad">${faults[why]}</span>`;
}

function pointers(view: BoardView, field: 'at' | 'time'): Markup {
  const hint = `q-${field}-hint`;
  return whyOf(view, field) === null
    ? html` aria-describedby="${hint}"`
    : html` aria-describedby="${hint} q-${field}-bad" aria-invalid="true"`;
}

function answerPart(answer: SmokeSourcesAnswer, view: BoardView): Markup {
  const { reader, question, query } = view;
  const { language, units } = reader;
  const words = boardWords(language);
  const { covers, cannotExclude, outside, beyond, nearestSiteM, timeZone, time } = answer;
  const at = `${momentAt(time, timeZone, language, null)} ${zoneShort(timeZone, language, msOf(time))}`;
  const place =
    question.place === null ? decimalText(answer.at) : `${question.place} (${decimalText(answer.at)})`;
  const isNone = covers.length + cannotExclude.length + outside.length === 0;
  const isFar = nearestSiteM !== null && nearestSiteM > FAR_M;
  const rest = outside.length - MOST_OUTSIDE;
  return html`<section class="found"><h3>${words.answer(place, at)}</h3>
${group(words.covers, covers, view)}${group(words.cannotExclude, cannotExclude, view)}${group(words.outside, outside.slice(0, MOST_OUTSIDE), view)}
${rest > 0 ? html`<p>${words.more(rest)}</p>` : null}${isNone ? html`<p>${words.noBurn}</p>` : null}${beyond > 0 ? html`<p>${words.beyond(beyond, distanceText(answer.reachM, units, language))}</p>` : null}${isFar ? html`<p><b>${words.farFromAll(distanceText(nearestSiteM, units, language))}</b></p>` : null}
<p class="again"><a class="tap" href="${sameWith(query, {})}#smoke">${words.askedAgain}</a></p></section>`;
}

function group(title: string, sources: readonly SmokeSourceAnswer[], view: BoardView): Markup | null {
  if (sources.length === 0) return null;
  return html`<h4>${title}</h4><ol class="rows">${sources.map((one) => sourceRow(one, view))}</ol>`;
}

function sourceRow(source: SmokeSourceAnswer, { burns, reader }: BoardView): Markup {
  const words = boardWords(reader.language);
  const pin = burns.find(({ site }) => site.id === source.site)?.pin;
  const name =
    pin === undefined
      ? html`<b>${source.name}</b>`
      : html`<a class="tap" href="#pin-${pin}"><b>${words.pin} ${pin}: ${source.name}</b></a>`;
  const { permit, phone } = source;
  const call = phone === null ? null : html` <a class="tap" href="${telLink(phone)}">${phone}</a>`;
  const by = permit === null ? null : html` ${words.permit} ${permit.number}.`;
  return html`<li><p>${name} (${liveWords(reader.language).states[source.state]})</p><p>${source.text}${by}${call}</p></li>`;
}
