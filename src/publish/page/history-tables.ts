// The lists of a past day: plans, texts, taps, notices, readings. Each in the order of its moments, on the clock of the site.

import { historyWords } from '#publish/wording/history-words.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { readingWords } from '#publish/wording/reading-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { amountText, bearingText, type Language } from '#publish/wording/show.ts';
import type { HistoryView, Moved, NoticedLine, ObservedLine, PlanLine, ToldLine } from './history-view.ts';
import { html, type Markup } from './html.ts';
import { chip, wordOf } from './mark.ts';
import { clockAt, momentAt } from './moments.ts';

/** Clock time; with its date where that is another day than the one shown. */
function clockOn({ site, day, reader }: HistoryView): (instant: string) => string {
  return (instant) =>
    instant.slice(0, 10) === day
      ? clockAt(instant, site.timeZone)
      : momentAt(instant, site.timeZone, reader.language, null);
}

type Clock = (instant: string) => string;

const head = (texts: readonly string[]): Markup =>
  html`<thead><tr>${texts.map((text) => html`<th scope="col">${text}</th>`)}</tr></thead>`;

const scrolled = (label: string, table: Markup): Markup =>
  html`<div class="scroll" tabindex="0" role="region" aria-label="${label}">${table}</div>`;

export function planTable(view: HistoryView): Markup {
  const { plans, known, reader } = view;
  const own = historyWords(reader.language);
  const { labels } = wordsFor(reader.language);
  if (plans.length === 0) return html`<h2>${own.plans}</h2><p>${own.noPlans}</p>`;
  const { made, from, verdict, moved } = own.columns;
  const columns = [made, verdict, labels.lightUp, labels.lastCharge, labels.coveredBy, moved, from];
  const rows = plans.map((plan) => planRow(plan, plan.id === known.plan?.id, view));
  return html`<h2>${own.plans}</h2>${scrolled(own.plans, html`<table class="wide">${head(columns)}<tbody>${rows}</tbody></table>`)}`;
}

function planRow(plan: PlanLine, isAsked: boolean, view: HistoryView): Markup {
  const { language } = view.reader;
  const own = historyWords(language);
  const words = wordsFor(language);
  const at = clockOn(view);
  const time = (instant: string | null): string => (instant === null ? '–' : at(instant));
  const isLast = isAsked ? html` <span class="dawn">${own.knownAt(at(view.known.at))}</span>` : null;
  const cause = `${own.causes[plan.cause]}: ${own.receivedAt(at(plan.receivedAt), plan.document)}`;
  return html`<tr><th scope="row" class="num">${at(plan.madeAt)}${isLast}</th><td>${chip(plan.cannotSay ? 'unsaid' : plan.verdict, words)}</td><td class="num">${time(plan.lightUp)}</td><td class="num">${time(plan.lastCharge)}</td><td class="num">${time(plan.coveredBy)}</td><td>${movedText(plan, at, language)}</td><td>${cause}</td></tr>`;
}

function movedText({ moved }: PlanLine, at: Clock, language: Language): string {
  const own = historyWords(language);
  const words = wordsFor(language);
  if (moved === null) return own.first;
  if (moved.length === 0) return own.same;
  const time = (instant: string | null): string => (instant === null ? own.none : at(instant));
  const text = (one: Moved): string => {
    if (one.kind === 'verdict')
      return own.wasAndIs(own.columns.verdict.toLowerCase(), wordOf(one.from, words), wordOf(one.to, words));
    if (one.kind === 'time') return own.wasAndIs(own.times[one.time], time(one.from), time(one.to));
    return one.kind === 'windows' ? own.windows : own.reasons;
  };
  return moved.map(text).join('; ');
}

export function toldList(view: HistoryView): Markup {
  const own = historyWords(view.reader.language);
  const rows = view.told.map((message) => toldRow(message, view));
  const list = rows.length === 0 ? html`<p>${own.nothingTold}</p>` : html`<ul class="rows told">${rows}</ul>`;
  return html`<h2>${own.told}</h2>${list}`;
}

const MARKED = new Set(['notice', 'evening', 'dawn']);

function toldRow(message: ToldLine, view: HistoryView): Markup {
  const { language } = view.reader;
  const own = historyWords(language);
  const at = clockOn(view);
  const kind = own.messages[message.kind as keyof typeof own.messages] ?? message.kind;
  // News that tells of no danger is no leave to light: the word stands beside day texts and warnings alone.
  const isMarked = MARKED.has(message.kind) && (message.kind !== 'notice' || message.verdict !== 'go');
  const mark = isMarked ? html`${chip(message.verdict, wordsFor(language))} ` : null;
  const words = [...new Set(message.said.filter((said) => said !== null))];
  const texts = words.length === 0 ? [message.text] : words;
  const parts = message.deliveries.map((d) => {
    const outcome = own.outcomes[d.outcome as keyof typeof own.outcomes] ?? d.outcome;
    const arrived = d.deliveredAt === null ? '' : `, ${own.arrived(at(d.deliveredAt))}`;
    return html`<li>${d.contact} (${d.channel}): ${outcome} ${at(d.settledAt ?? d.dueAt)}${arrived}</li>`;
  });
  const answers = message.answers.map((a) => {
    const said = own.said[a.answer as keyof typeof own.said] ?? a.answer;
    return html`<li><b>${own.answered(a.contact, said, at(a.at), a.via)}</b></li>`;
  });
  return html`<li><b class="num">${at(message.at)}</b> ${mark}${kind}${texts.map((text) => html`<blockquote>${text}</blockquote>`)}<ul>${parts}${answers}</ul></li>`;
}

export function tapLists(view: HistoryView): Markup {
  const { language } = view.reader;
  const own = historyWords(language);
  const { states } = liveWords(language);
  const at = clockOn(view);
  const rows = view.burns.flatMap((burn) =>
    burn.taps.map((tap) => {
      const notes = [
        ...(tap.corrects === null || tap.withdraws ? [] : [own.corrects]),
        ...(tap.withdraws ? [own.withdraws] : []),
        ...(tap.counts || tap.withdraws ? [] : [own.corrected]),
        ...(tap.note === '' ? [] : [tap.note]),
      ];
      const name = tap.counts ? html`<b>${states[tap.tap]}</b>` : html`<s>${states[tap.tap]}</s>`;
      return html`<li>${name} <span class="num">${own.tapped(at(tap.tappedAt), at(tap.receivedAt))}</span> ${own.by(tap.by, tap.from)}${notes.length === 0 ? null : ` (${notes.join('; ')})`}</li>`;
    }),
  );
  const list = rows.length === 0 ? html`<p>${own.noTaps}</p>` : html`<ul class="rows">${rows}</ul>`;
  return html`<h2>${own.taps}</h2>${list}`;
}

export function noticedTable(view: HistoryView): Markup {
  const own = historyWords(view.reader.language);
  const rows = view.noticed.map((line) => noticedRow(line, view));
  const list = rows.length === 0 ? html`<p>${own.nothingNoticed}</p>` : html`<ul class="rows">${rows}</ul>`;
  return html`<h2>${own.noticed}</h2>${list}`;
}

function noticedRow({ at, kind, verdict, text, untold }: NoticedLine, view: HistoryView): Markup {
  const { language } = view.reader;
  const own = historyWords(language);
  const name = own.kinds[kind as keyof typeof own.kinds] ?? kind;
  const mark = verdict === 'go' ? null : html`${chip(verdict, wordsFor(language))} `;
  return html`<li><b class="num">${clockOn(view)(at)}</b> ${mark}<b>${name}</b>: ${text}${untold ? ` (${own.untold})` : null}</li>`;
}

export function observedTable(view: HistoryView): Markup {
  const own = historyWords(view.reader.language);
  if (view.observed.length === 0) return html`<h2>${own.observed}</h2><p>${own.nothingObserved}</p>`;
  const rows = view.observed.map((line) => observedRow(line, view));
  const table = html`<table>${head(own.observedColumns)}<tbody>${rows}</tbody></table>`;
  return html`<h2>${own.observed}</h2><p class="note">${own.observedNote}</p>${scrolled(own.observed, table)}`;
}

function observedRow({ observation: o, beyond }: ObservedLine, view: HistoryView): Markup {
  const { language, units } = view.reader;
  const own = historyWords(language);
  const words = readingWords(language);
  const classOf = (value: string): string => {
    const found = beyond.filter((one) => one.value === value).map((one) => one.class);
    if (found.includes('stop')) return 'over2';
    return found.length > 0 ? 'over1' : 'num';
  };
  const cell = (name: 'windSpeed' | 'windGust' | 'relativeHumidity', value: number | null): Markup =>
    html`<td class="${classOf(name)}">${value === null ? '–' : amountText(name, value, units, language)}</td>`;
  const from = (): string => {
    if (o.wind === 'calm') return words.calm;
    return o.windFrom === null ? '–' : bearingText(o.windFrom, language);
  };
  const limits = [...new Set(beyond.map(({ source }) => own.beyond(source)))].join('; ');
  return html`<tr><th scope="row" class="num">${clockOn(view)(o.observedAt)}</th><td>${o.station}</td><td>${from()}</td>${cell('windSpeed', o.windSpeedMps)}${cell('windGust', o.gustMps)}${cell('relativeHumidity', o.relativeHumidityPct)}<td>${limits}</td></tr>`;
}
