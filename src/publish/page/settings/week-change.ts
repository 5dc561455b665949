// What the coming week becomes by a change, day by day beside what it is now: word and shape, the three times, and the windows
// as a strip over the day.

import { overlaps, type Span } from '#core/units/time.ts';
import { across } from '#publish/page/chart/across.ts';
import { openSpan, timeScale } from '#publish/page/chart/time-scale.ts';
import { html, type Markup, type Piece } from '#publish/page/html.ts';
import { chip } from '#publish/page/mark.ts';
import { msOf } from '#publish/page/moments.ts';
import { pausesText, timeOf } from '#publish/page/plan-text.ts';
import { shutTimes } from '#publish/page/reasons.ts';
import { type NowWindow, standingOf } from '#publish/page/standing.ts';
import { dayText } from '#publish/page/week-list.ts';
import type { ForecastState, PlanAnswer, WindowsAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { settingsWords } from '#publish/wording/settings-words.ts';
import { dateText, type Language } from '#publish/wording/show.ts';
import { lowerFirst } from '#publish/wording/text-case.ts';

export interface WeekDay {
  readonly plan: PlanAnswer;
  readonly windows: WindowsAnswer['windows'];
  readonly fromMs: number;
  readonly toMs: number;
  /** Undefined for another day than today. */
  readonly now: NowWindow | null | undefined;
}

export interface SiteWeek {
  readonly name: string;
  /** Why there is nothing to compare; null where there is. */
  readonly why: 'noForecast' | 'newPlace' | 'siteGone' | 'siteNew' | null;
  readonly forecast: ForecastState | null;
  readonly nowMs: number;
  readonly days: readonly {
    readonly before: WeekDay | null;
    readonly after: WeekDay;
    readonly same: boolean;
  }[];
}

export interface Weeks {
  readonly sites: readonly SiteWeek[];
  readonly more: number;
}

/** A fragment that stands in a page of its own, and is asked for again while somebody types. */
export function weekChange({ sites, more }: Weeks, language: Language): Markup {
  const words = settingsWords(language);
  const none = sites.length === 0 ? html`<p>${words.noSites}</p>` : null;
  const rest = more > 0 ? html`<p class="note">${words.moreSites(more)}</p>` : null;
  return html`<h2>${words.weekTitle}</h2>${none}${sites.map((site) => siteWeek(site, language))}${rest}`;
}

function siteWeek(site: SiteWeek, language: Language): Markup {
  const words = settingsWords(language);
  const { days, why } = site;
  const told = why === null ? null : html`<p>${words[why]}</p>`;
  const changed = days.filter(({ same }) => !same).length;
  const count =
    days.length === 0 || why === 'siteNew'
      ? null
      : html`<p><b>${words.daysChange(changed, days.length)}</b></p>`;
  return html`<h3>${site.name}</h3>${told}${count}<ul class="rows weeks">${days.map((day) => dayRow(day, site, language))}</ul>`;
}

function dayRow(
  { before, after, same }: SiteWeek['days'][number],
  site: SiteWeek,
  language: Language,
): Markup {
  const words = settingsWords(language);
  const date = html`<b>${dateText(after.plan.day, language)}</b>`;
  const span = openOf([before, after]);
  const side = (day: WeekDay, label: string): Markup => sideOf(day, site, language, { label, span });
  if (same && before !== null) return html`<li>${date}${side(before, `${words.now}, ${words.after}`)}</li>`;
  const now = before === null ? null : side(before, words.now);
  return html`<li class="moved">${date}${now}${side(after, words.after)}</li>`;
}

interface Side {
  readonly label: string;
  /** Drawn: the same for both, so that they can be compared. */
  readonly span: Span;
}

function sideOf(day: WeekDay, site: SiteWeek, language: Language, { label, span }: Side): Markup {
  const words = wordsFor(language);
  const { plan, now } = day;
  const standing = standingOf(plan, site.forecast ?? NO_FORECAST, site.nowMs, now);
  // What is over, or too late, has a sentence of its own.
  const isAhead = standing.state === 'ok' || standing.state === 'pause';
  const times = isAhead ? timesOf(plan, language) : null;
  const text = times ?? dayText(plan, standing, language, now);
  return html`<div class="side"><span class="note">${label}</span> ${chip(standing.mark, words)} <span class="num">${text}</span>${strip(day, span, language)}</div>`;
}

const NO_FORECAST = { state: 'none' } as ForecastState;

/** The three times; null where the day has no burn. */
function timesOf(plan: PlanAnswer, language: Language): Piece {
  const { labels } = wordsFor(language);
  const { lightUp, lastCharge, coveredBy } = plan;
  if (lightUp === null || lastCharge === null || coveredBy === null) return null;
  const at = (instant: string) => html`<time datetime="${instant}">${timeOf(instant, plan, language)}</time>`;
  return html`${labels.lightUp} ${at(lightUp)}${pausesText(plan, language)}, ${lowerFirst(labels.lastCharge)} ${at(lastCharge)}, ${lowerFirst(labels.coveredBy)} ${at(coveredBy)}.`;
}

function strip({ windows, plan }: WeekDay, span: Span, language: Language): Markup {
  const { verdicts } = wordsFor(language);
  const scale = timeScale(span);
  const spans = windows.map((w) => ({ ...w, fromMs: msOf(w.from), toMs: msOf(w.to) }));
  const told = spans
    .filter((w) => overlaps(w, span))
    .map((w) => `${verdicts[w.verdict]} ${timeOf(w.from, plan, language)} – ${timeOf(w.to, plan, language)}`);
  const shut = shutTimes(windows).map((s) => ({ ...s, verdict: 'shut' }));
  const boxes = [...spans, ...shut].map((w) =>
    overlaps(w, span) ? html`<rect class="b-${w.verdict}" ${across(w, scale)} height="14"/>` : null,
  );
  return html`<svg class="band strip" width="100%" height="14" role="img" aria-label="${told.join(', ')}">${boxes}</svg>`;
}

/** The hours in which either of the two may burn. */
function openOf(days: readonly (WeekDay | null)[]): Span {
  const spans = days.flatMap((day) => (day === null ? [] : [openSpan(day, shutTimes(day.windows))]));
  return {
    fromMs: Math.min(...spans.map(({ fromMs }) => fromMs)),
    toMs: Math.max(...spans.map(({ toMs }) => toMs)),
  };
}
