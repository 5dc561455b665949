// The list of sites, a row each, in the order in which they are given: what needs somebody comes first.

import type { ForecastState, PlanAnswer } from '#publish/wire.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { boardWords } from '#publish/wording/board-words.ts';
import { listWords } from '#publish/wording/list-words.ts';
import { liveWords } from '#publish/wording/live-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { dateText, type Language, type UnitSystem } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';
import { faultOf } from './answer-block.ts';
import { type CrewSeen, crewLine } from './crew-line.ts';
import { html, type Markup } from './html.ts';
import { boardLink, type Query, sameWith, siteLink } from './links.ts';
import { type ListHead, listForm, listHead, listSummary } from './list-head.ts';
import { LIST_STYLE } from './list-style.ts';
import { chip } from './mark.ts';
import { momentAt, msOf } from './moments.ts';
import { type MovedTime, movedLine } from './moved-line.ts';
import { type NeedSeen, needsLines } from './needs-line.ts';
import { timeOf } from './plan-text.ts';
import { reasonsNow } from './reasons.ts';
import { page } from './shell.ts';
import { silenceList } from './silence-block.ts';
import { asOfMs, type NowWindow, type Standing, standingOf } from './standing.ts';
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
    /** Why it needs somebody, gravest first. */
    readonly needs: readonly NeedSeen[];
    /** Times that are others than the evening text told. */
    readonly moved: readonly MovedTime[];
    /** What the crew was told last; null: nothing of late. Undefined where nothing is watched. */
    readonly crew: CrewSeen | null | undefined;
  }[];
  readonly head: ListHead;
  /** Instant as of which all of it was put together. */
  readonly asOf: string;
  /** Which of how many pages. */
  readonly page: number;
  readonly pages: number;
  readonly demo: boolean;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly query: Query;
}

type SiteRow = HomeView['sites'][number];

export function homePage(view: HomeView): string {
  const { sites, page: shown, pages, demo, reader, query, head } = view;
  const { language } = reader;
  const { labels } = wordsFor(language);
  const rows = sites.map((site) => row(site, view));
  const list = rows.length === 0 ? null : html`<ul class="rows sites">${rows}</ul>`;
  const isNone = head.counts.total === 0;
  const toBoard = sites.some(({ live }) => live !== null)
    ? html`<p><a class="tap" href="${boardLink(query)}">${boardWords(language).title}</a></p>`
    : null;
  return page({
    title: labels.allSites,
    language,
    demo,
    choice: { units: reader.units, query },
    zone: null,
    isHome: true,
    style: LIST_STYLE,
    main: html`<h1 class="all">${labels.allSites}</h1>${isNone ? html`<p>${labels.noSites}</p>` : html`${listHead(head, query, language)}${listForm(query, language)}${listSummary(head, query, language)}`}${list}
${pageLinks(shown, pages, query, listWords(language).pages)}${toBoard}<p class="note">${labels.eachOwnTime}</p>`,
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
  return html`<nav class="pages" aria-label="${label}">${numbers.map(link)}</nav>`;
}

function row(site: SiteRow, view: HomeView): Markup {
  const { reader, query, asOf } = view;
  const { language } = reader;
  const { labels } = wordsFor(language);
  const { forecast, today, tomorrow } = site;
  const isNone = forecast.state === 'none' || (today === null && tomorrow === null);
  const answers = isNone
    ? noForecast(site, language)
    : html`<dl class="d">${dayAnswer(labels.tomorrow, tomorrow, site, view)}${dayAnswer(labels.today, today, site, view)}</dl>${ageOf(site, language)}`;
  const crew = site.crew === undefined ? null : crewLine(site.crew, site.timeZone ?? 'UTC', language, asOf);
  return html`<li><h2><a href="${siteLink(site.id, query, null)}">${site.name}</a></h2><div>${needsLines(site.needs, language)}${liveRow(site, language, query)}${answers}${movedLine(site.moved, site.timeZone ?? 'UTC', language)}${crew}</div></li>`;
}

/** The word of this moment, and the burn that is open. */
function liveRow({ id, live }: SiteRow, language: Language, query: Query): Markup | null {
  if (live === null) return null;
  const words = wordsFor(language);
  const own = liveWords(language);
  const { burn } = live;
  const since = (at: string) => momentAt(at, live.timeZone, language, live.asOf);
  const burns = burn && html`<b>${own.states[burn.state]}, ${own.since} ${since(burn.since)}.</b> `;
  return html`<dl class="d${burn ? ' lit' : ''}"><dt>${words.labels.now}</dt><dd class="a"><a class="chipped" href="${siteLink(id, query, null)}">${chip(liveMark(live), words)}</a><span>${burns}${live.text}</span></dd></dl>${silenceList(live, language)}`;
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
  { reader: { language }, query, asOf }: HomeView,
): Markup {
  const words = wordsFor(language);
  if (plan === null)
    return html`<dt>${label}</dt><dd class="a">${chip('unsaid', words)} ${words.labels.noForecast}.</dd>`;
  const isToday = plan === site.today;
  const ofPlan = standingOf(plan, site.forecast, asOfMs(plan), isToday ? site.now : undefined);
  const standing = isToday ? withLive(ofPlan, site.live, plan, msOf(asOf)) : ofPlan;
  // The times of the plan are withdrawn with its word.
  const text =
    standing.byLive && site.live !== null ? site.live.whatToDo : answerText(plan, standing, site, language);
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
