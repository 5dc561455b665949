// All sites, one row each; what needs somebody comes first.

import type { ForecastState, PlanAnswer } from '#publish/wire.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { dateText, type Language, type UnitSystem } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import { faultOf } from './answer-block.ts';
import { html, type Markup } from './html.ts';
import { type Query, sameWith, siteLink } from './links.ts';
import { chip } from './mark.ts';
import { momentAt } from './moments.ts';
import { timeOf } from './plan-text.ts';
import { reasonsNow } from './reasons.ts';
import { page } from './shell.ts';
import { asOfMs, type Mark, type NowWindow, type Standing, standingOf } from './standing.ts';
import { dayText } from './week-list.ts';
import { liveMark, withLive } from './with-live.ts';

export interface HomeView {
  readonly sites: readonly {
    readonly id: string;
    readonly name: string;
    /** Null until the forecast point has told it. */
    readonly timeZone: string | null;
    readonly forecast: ForecastState;
    /** What stands at this moment, the same as GET /v1/sites/{id}/now; null where nothing is watched or nobody can say. */
    readonly live: NowAnswer | null;
    /** What holds at this moment, null where nobody can say; today's mark is never better. */
    readonly now: NowWindow | null;
    readonly today: PlanAnswer | null;
    readonly tomorrow: PlanAnswer | null;
  }[];
  /** Which of how many pages. */
  readonly page: number;
  readonly pages: number;
  readonly demo: boolean;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly query: Query;
}

type SiteRow = HomeView['sites'][number];

export function homePage({ sites, page: shown, pages, demo, reader, query }: HomeView): string {
  const { labels } = wordsFor(reader.language);
  const sorted = [...sites].sort(
    (a, b) => need(b) - need(a) || a.name.localeCompare(b.name, reader.language),
  );
  const rows = sorted.map((site) => row(site, reader.language, query));
  return page({
    title: labels.allSites,
    language: reader.language,
    demo,
    choice: { units: reader.units, query },
    zone: null,
    isHome: true,
    main: html`<h1 class="all">${labels.allSites}</h1>${rows.length === 0 ? html`<p>${labels.noSites}</p>` : html`<ul class="rows sites">${rows}</ul>`}
${pageLinks(shown, pages, query, labels.allSites)}<p class="note">${labels.eachOwnTime}</p>`,
  });
}

/** By number; none where all stand on one page. */
function pageLinks(shown: number, pages: number, query: Query, label: string): Markup | null {
  if (pages === 1) return null;
  const numbers = Array.from({ length: pages }, (_, i) => i + 1);
  const link = (n: number): Markup =>
    n === shown
      ? html`<b aria-current="page">${String(n)}</b> `
      : html`<a href="${sameWith(query, { page: String(n) })}">${String(n)}</a> `;
  return html`<nav aria-label="${label}">${numbers.map(link)}</nav>`;
}

const NEED: Readonly<Record<Mark, number>> = { unsaid: 3, stop: 2, hold: 1, go: 0 };

/** How much a site needs somebody: one that burns, no forecast, an old one, then the worse of its two days. */
function need({ forecast, live, now, today, tomorrow }: SiteRow): number {
  if (live?.burn) return 10 + NEED[liveMark(live)];
  if (forecast.state === 'none' || today === null) return 9;
  if (forecast.state === 'stale') return 8;
  const marks = [today, tomorrow].map((plan) =>
    plan === null ? 3 : NEED[standingOf(plan, forecast, asOfMs(plan), plan === today ? now : undefined).mark],
  );
  return Math.max(...marks) + (forecast.fault === null ? 0 : 4);
}

function row(site: SiteRow, language: Language, query: Query): Markup {
  const { labels } = wordsFor(language);
  const { forecast, today, tomorrow } = site;
  const isNone = forecast.state === 'none' || (today === null && tomorrow === null);
  const answers = isNone
    ? noForecast(site, language)
    : html`<dl class="d">${dayAnswer(labels.tomorrow, tomorrow, site, language, query)}${dayAnswer(labels.today, today, site, language, query)}</dl>${ageOf(site, language)}`;
  return html`<li><h2><a href="${siteLink(site.id, query, null)}">${site.name}</a></h2><div>${liveRow(site, language, query)}${answers}</div></li>`;
}

/** The word of this moment, and the burn that is open. */
function liveRow({ id, live }: SiteRow, language: Language, query: Query): Markup | null {
  if (live === null) return null;
  const words = wordsFor(language);
  const own = liveWords(language);
  const { burn } = live;
  const since = (at: string) => momentAt(at, live.timeZone, language, live.asOf);
  const burns = burn && html`<b>${own.states[burn.state]}, ${own.since} ${since(burn.since)}.</b> `;
  return html`<dl class="d${burn ? ' lit' : ''}"><dt>${words.labels.now}</dt><dd class="a"><a class="chipped" href="${siteLink(id, query, null)}">${chip(liveMark(live), words)}</a><span>${burns}${live.text}</span></dd></dl>`;
}

function noForecast({ forecast, timeZone }: SiteRow, language: Language): Markup {
  const words = wordsFor(language);
  const at = (instant: string) =>
    momentAt(instant, timeZone ?? 'UTC', language, null) + (timeZone === null ? ' UTC' : '');
  return html`<p class="a">${chip('unsaid', words)} <b>${words.labels.noForecast}.</b></p><p class="note">${faultOf(forecast.fault, words.labels.lastFault, at)}</p>`;
}

function dayAnswer(
  label: string,
  plan: PlanAnswer | null,
  site: SiteRow,
  language: Language,
  query: Query,
): Markup {
  const words = wordsFor(language);
  if (plan === null)
    return html`<dt>${label}</dt><dd class="a">${chip('unsaid', words)} ${words.labels.noForecast}.</dd>`;
  const isToday = plan === site.today;
  const ofPlan = standingOf(plan, site.forecast, asOfMs(plan), isToday ? site.now : undefined);
  const standing = isToday ? withLive(ofPlan, site.live) : ofPlan;
  // The times of the plan are withdrawn with its word.
  const isLive = site.live !== null && standing !== ofPlan;
  const text = isLive ? site.live.whatToDo : answerText(plan, standing, site, language);
  const link = html`<a class="chipped" href="${siteLink(site.id, query, plan.day)}">${chip(standing.mark, words)}</a>`;
  return html`<dt>${label}<br>${dateText(plan.day, language)}</dt><dd class="a">${link}<span>${text}</span></dd>`;
}

function answerText(
  plan: PlanAnswer,
  standing: Standing,
  { now, today }: SiteRow,
  language: Language,
): string {
  const { labels } = wordsFor(language);
  const { coveredBy } = plan;
  const { byNow, state } = standing;
  const held = byNow && now !== null ? `${labels.until} ${timeOf(now.to, plan, language)}. ` : '';
  const because = byNow && plan.lightUp === null ? reasonsNow(now, asOfMs(plan))[0] : undefined;
  const day = dayText(plan, standing, language, plan === today ? now : undefined);
  const text = because === undefined || because.text === day ? day : `${because.text} ${day}`;
  if (coveredBy === null || state === 'void') return `${held}${text}`;
  return `${held}${text.replace(/\.$/, '')}, ${lowerFirst(labels.coveredBy)} ${timeOf(coveredBy, plan, language)}.`;
}

function ageOf({ forecast, timeZone }: SiteRow, language: Language): Markup {
  const { labels, age } = wordsFor(language);
  const at = (instant: string) => momentAt(instant, timeZone ?? 'UTC', language, null);
  const made = forecast.madeAt === null ? labels.missing : at(forecast.madeAt);
  const old = forecast.ageMin === null ? '' : ` (${age(forecast.ageMin)})`;
  const isOld = forecast.state === 'stale';
  const text = html`${labels.forecastMade} ${made}${old}.`;
  return html`<p class="note">${isOld ? html`<b class="loudly">${labels.notFresh}</b> ` : null}${text}${faultOf(forecast.fault, labels.lastFault, at)}</p>`;
}
