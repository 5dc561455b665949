// A past day as it was known then: what stood at a moment, every plan, what was told, tapped, noticed and observed.

import type { PlanAnswer } from '#publish/wire.ts';
import { historyWords } from '#publish/wording/history-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { dateText, numberText } from '#publish/wording/show.ts';
import { noticedTable, observedTable, planTable, tapLists, toldList } from './history-tables.ts';
import type { HistoryView, PlanLine } from './history-view.ts';
import { html, type Markup, trusted } from './html.ts';
import { sameWith, siteLink } from './links.ts';
import { chip } from './mark.ts';
import { clockAt, momentAt, msOf } from './moments.ts';
import { firstReason } from './reasons.ts';
import { page } from './shell.ts';
import type { Mark } from './standing.ts';

const HISTORY_STYLE: Markup = trusted(
  '.at{display:flex;flex-wrap:wrap;gap:0 12px;align-items:end}.at input[type=time]{width:8.5em}.wide td,.wide th{white-space:normal}.wide .num{white-space:nowrap}.over1{font-weight:800}.times.known{border-top:2px solid var(--ink)}.over2{font-weight:800;text-decoration:underline double}.gone{text-decoration:line-through}.dawn{display:block;font-weight:800}.told blockquote{margin:4px 0}@media print{.at,.found{display:none}}',
);

export function historyPage(view: HistoryView): string {
  const { site, day, reader, query, demo, asOf } = view;
  const { language } = reader;
  const own = historyWords(language);
  const date = dateText(day, language);
  return page({
    title: `${site.name}, ${own.title(date)}`,
    language,
    demo,
    choice: { units: reader.units, query },
    zone: { timeZone: site.timeZone, atMs: msOf(asOf) },
    isHome: false,
    style: HISTORY_STYLE,
    main: html`<h1 class="all">${site.name}. ${own.title(date)}</h1>${links(view)}${isUnknown(view) ? unknown(view) : body(view)}`,
  });
}

const body = (view: HistoryView): Markup =>
  html`${known(view)}${planTable(view)}${toldList(view)}${tapLists(view)}${noticedTable(view)}${observedTable(view)}${notKept(view)}`;

const isUnknown = ({ plans, told, burns, noticed, observed }: HistoryView): boolean =>
  plans.length + told.length + burns.length + noticed.length + observed.length === 0;

/** An earlier time of the day, by a form without script; the page of the day; the record as a file. */
function links({ site, day, known: { clock }, query, reader: { language } }: HistoryView): Markup {
  const own = historyWords(language);
  const kept = Object.entries({ ...query, day })
    .filter(([key]) => key !== 'at')
    .map(([key, value]) => html`<input type="hidden" name="${key}" value="${value}">`);
  const { look: _look, ...choices } = query;
  const file = `/sites/${encodeURIComponent(site.id)}/history.csv${sameWith(choices, { day, at: null })}`;
  return html`<form class="at" method="get">${kept}<p><label>${own.choose} <input type="time" name="at" value="${clock}"></label></p><p><button>${own.show}</button></p></form>
<p class="note found"><a class="tap" href="${siteLink(site.id, query, day)}">${own.toDay}</a> <a class="tap" href="${file}">${own.csv}</a></p>`;
}

function unknown(view: HistoryView): Markup {
  const own = historyWords(view.reader.language);
  const words = wordsFor(view.reader.language);
  return html`<p>${chip('unsaid', words)} <b>${own.unknownDay}</b></p>${notKept(view)}`;
}

/** What has gone by its age is said, so that nothing looks as if it had not been. */
function notKept({ keptDays, daysAgo, reader: { language } }: HistoryView): Markup | null {
  const own = historyWords(language);
  const gone = (['plans', 'burns', 'observations'] as const).filter((kind) => daysAgo > keptDays[kind]);
  if (gone.length === 0) return null;
  return html`<ul>${gone.map((kind) => html`<li>${own.beyondKept(own.kept[kind], numberText(keptDays[kind], 0, language))}</li>`)}</ul>`;
}

export const markOfLine = ({ verdict, cannotSay }: Pick<PlanLine, 'verdict' | 'cannotSay'>): Mark =>
  cannotSay ? 'unsaid' : verdict;

/** A day without a window is barred by something, and its tightest limit may be another thing. */
const becauseOf = (answer: PlanAnswer): ReadonlySet<string> =>
  new Set(
    [answer.lightUp === null ? firstReason(answer) : null, answer.tightest?.text ?? null].filter(
      (text) => text !== null,
    ),
  );

function known({ known: k, site, day, reader: { language }, asOf }: HistoryView): Markup {
  const own = historyWords(language);
  const words = wordsFor(language);
  const { labels } = words;
  const title = html`<h2>${own.knownAt(clockAt(k.at, site.timeZone))}</h2>`;
  if (k.plan === null || k.rebuilt === null)
    return html`${title}<p>${chip('unsaid', words)} ${own.noPlanThen}</p>`;
  const { answer, plan } = k;
  const source = answer ?? plan;
  const at = (instant: string | null): string =>
    instant === null ? '–' : momentAt(instant, site.timeZone, language, `${day}T12:00:00Z`);
  const time = (instant: string | null): string => (instant === null ? '–' : timeOn(instant));
  const timeOn = (instant: string): string =>
    instant.slice(0, 10) === day ? clockAt(instant, site.timeZone) : at(instant);
  const mark = markOfLine(source);
  const because = answer === null ? [] : [...becauseOf(answer)];
  const rows = [
    [labels.lightUp, source.lightUp],
    [labels.lastCharge, source.lastCharge],
    [labels.coveredBy, source.coveredBy],
  ] as const;
  const times = rows.map(([label, instant]) => html`<li>${label} <b>${time(instant)}</b></li>`);
  const next = answer === null ? [] : answer.wouldChange.moves.map((move) => move.text);
  const made = momentAt(plan.madeAt, site.timeZone, language, asOf);
  const moves =
    next.length === 0
      ? null
      : html`<h3>${labels.wouldChange}</h3><ul>${next.map((text) => html`<li>${text}</li>`)}</ul>`;
  return html`${title}<p>${chip(mark, words)} ${answer === null ? null : answer.text}</p><ol class="times known">${times}</ol>${because.map((text) => html`<p>${text}</p>`)}${moves}<p class="note">${own.madeBy(made, plan.program)} ${own.rebuilt[k.rebuilt]}</p>`;
}
