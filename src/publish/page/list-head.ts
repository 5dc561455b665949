// Above the rows of the list: how many sites are how, what to look at, and the form that narrows it. Plain GET forms and
// links: what was chosen stands in the address.

import { listWords } from '#publish/wording/list-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { type Language, numberText } from '#publish/wording/show.ts';
import { html, type Markup, type Piece } from './html.ts';
import { type Query, sameWith } from './links.ts';
import { chip, wordOf } from './mark.ts';
import type { Mark } from './standing.ts';

export interface ListHead {
  readonly counts: {
    readonly total: number;
    readonly today: Readonly<Record<Mark, number>>;
    readonly tomorrow: Readonly<Record<Mark, number>>;
    readonly needs: number;
    readonly burning: number;
    readonly changed: number;
  };
  /** When the evening text went out, as people say it; null where sites had theirs at different moments, or none had. */
  readonly evening: string | null;
  /** Rows that the filter leaves, and which of them are on this page: from 1, both included. */
  readonly found: number;
  readonly from: number;
  readonly to: number;
}

const MARKS: readonly Mark[] = ['stop', 'go', 'hold', 'unsaid'];
/** What the form sets; everything else of the query it hands on. */
const OF_FORM = new Set(['q', 'verdict', 'day', 'show', 'page']);

/** An address with nothing of the list but this. */
const only = (query: Query, change: Readonly<Record<string, string>>): string =>
  sameWith(query, { q: null, verdict: null, day: null, show: null, page: null, ...change });

export function listHead({ counts, evening }: ListHead, query: Query, language: Language): Markup {
  const own = listWords(language);
  const { labels } = wordsFor(language);
  const number = (n: number): string => numberText(n, 0, language);
  const day = (name: 'today' | 'tomorrow'): Markup =>
    html`<li><b>${labels[name]}</b> ${MARKS.map((mark) => countLink(counts[name][mark], mark, name, query, language))}</li>`;
  const link = (text: string, show: string): Markup =>
    html`<a class="tap" href="${only(query, { show })}">${text}</a> `;
  return html`<section aria-label="${own.counts}"><ul class="rows counts">${day('today')}${day('tomorrow')}<li>${link(`${own.needYou}: ${number(counts.needs)}`, 'needs')}${link(`${own.burning}: ${number(counts.burning)}`, 'burning')}${link(own.changedSince(number(counts.changed), evening), 'changed')}</li></ul></section>`;
}

function countLink(
  count: number,
  mark: Mark,
  day: 'today' | 'tomorrow',
  query: Query,
  language: Language,
): Markup {
  const words = wordsFor(language);
  return html`<a class="chipped" href="${only(query, { verdict: mark, day })}">${chip(mark, words)}&nbsp;${numberText(count, 0, language)}</a> `;
}

export function listForm(query: Query, language: Language): Markup {
  const own = listWords(language);
  const words = wordsFor(language);
  const kept = Object.entries(query)
    .filter(([key]) => !OF_FORM.has(key))
    .map(([key, value]) => html`<input type="hidden" name="${key}" value="${value}">`);
  const verdicts = [['', own.any], ...MARKS.map((mark) => [mark, wordOf(mark, words)] as const)] as const;
  const days = [
    ['today', words.labels.today],
    ['tomorrow', words.labels.tomorrow],
  ] as const;
  const shows = [
    ['', own.all],
    ['needs', own.needYou],
    ['burning', own.burning],
    ['changed', own.changed],
  ] as const;
  return html`<form class="narrow" method="get" action="/" role="search">${kept}
<p><label>${own.find} <input type="search" name="q" maxlength="80" value="${query['q'] ?? ''}" placeholder="${own.findHint}"></label></p>
<p>${select(own.verdict, 'verdict', verdicts, query)}</p><p>${select(own.day, 'day', days, query)}</p><p>${select(own.show, 'show', shows, query)}</p>
<p><button>${own.look}</button></p></form>`;
}

function select(
  label: string,
  name: string,
  options: readonly (readonly [string, string])[],
  query: Query,
): Markup {
  const chosen = query[name] ?? '';
  const option = ([value, text]: readonly [string, string]): Markup =>
    html`<option value="${value}"${value === chosen ? html` selected` : null}>${text}</option>`;
  return html`<label>${label} <select name="${name}">${options.map(option)}</select></label>`;
}

/** How much of how much, and the whole of it as a file. */
export function listSummary({ found, from, to }: ListHead, query: Query, language: Language): Piece {
  const own = listWords(language);
  const number = (n: number): string => numberText(n, 0, language);
  const file = html` <a class="tap" href="/sites.csv${sameWith(query, { page: null, look: null })}">${own.csv}</a>`;
  const reset = html` <a class="tap" href="${only(query, {})}">${own.reset}</a>`;
  const isNarrow = ['q', 'verdict', 'show'].some((key) => (query[key] ?? '') !== '');
  const text = found === 0 ? own.noneFound : own.shown(number(from), number(to), number(found));
  return html`<p class="note found">${text}${isNarrow ? reset : null}${file}</p>`;
}
