// The first screen of a site: the answer, the three times, the age of the forecast, and what holds now.

import { wordsFor } from '#publish/wording/say.ts';
import { dateText } from '#publish/wording/show.ts';
import { html, type Markup } from './html.ts';
import { chip, shape, wordOf } from './mark.ts';
import { clockAt, momentAt, msOf } from './moments.ts';
import { firstReason, heldUnknown, toldOnce } from './reasons.ts';
import type { SiteView } from './site-view.ts';
import { isTrusted, type Standing, standingOf } from './standing.ts';

export function answerBlock(view: SiteView, standing: Standing): Markup {
  const { plan, reader } = view;
  const words = wordsFor(reader.language);
  const { labels } = words;
  const isGo = standing.mark === 'go' && plan.lightUp !== null && plan.lastCharge !== null;
  const span = isGo
    ? html` <span class="t">${clockAt(plan.lightUp ?? '', plan.timeZone)}<br>${labels.until} ${clockAt(plan.lastCharge ?? '', plan.timeZone)}</span>`
    : null;
  return html`<section class="call ${standing.mark}"><h1>${plan.name}. ${dayName(view)}<span class="skip">: </span>
<span class="w"><span class="v">${shape(standing.mark)}${wordOf(standing.mark, words)}</span>${span}</span></h1>${sentences(view, standing).map((s) => html`<p>${s}</p>`)}</section>`;
}

export function dayName({ plan, reader, dayLabel }: SiteView): string {
  const date = dateText(plan.day, reader.language);
  return dayLabel === null ? date : `${wordsFor(reader.language).labels[dayLabel]}, ${date}`;
}

function sentences(view: SiteView, { state, mark }: Standing): string[] {
  const { plan, reader } = view;
  const { labels } = wordsFor(reader.language);
  if (state === 'void') return [labels.notFresh];
  if (state === 'over')
    return [`${labels.noMoreWoodSince} ${clockAt(plan.lastCharge ?? '', plan.timeZone)}.`];
  if (state === 'late') {
    const words = wordsFor(reader.language);
    return [
      words.tooLateToLight(msOf(plan.lastCharge ?? ''), {
        ...reader,
        timeZone: plan.timeZone,
        day: plan.day,
      }),
    ];
  }
  if (mark === 'go') return [...pauseTexts(view), ...(plan.tightest === null ? [] : [plan.tightest.text])];
  const reason = firstReason(plan);
  const next = nextWindow(view);
  return [...(reason === null ? [] : [reason]), ...(next === null ? [] : [next])];
}

/** Holds inside the burn, which the time from light-up to last charge alone would hide. */
function pauseTexts({ plan, reader }: SiteView): string[] {
  const { labels } = wordsFor(reader.language);
  const clock = (instant: string) => clockAt(instant, plan.timeZone);
  return plan.pauses.map((p) => `${labels.pause}, ${clock(p.from)} – ${clock(p.to)}.`);
}

/** A held day is worth little without the day that is not. */
function nextWindow({ plan, forecast, nowMs, week, reader }: SiteView): string | null {
  const { labels } = wordsFor(reader.language);
  const next = week.find(
    (d) => d.day > plan.day && d.lightUp !== null && standingOf(d, forecast, nowMs, null).mark === 'go',
  );
  if (!next) return null;
  return `${labels.nextWindow}: ${dateText(next.day, reader.language)}, ${labels.from} ${clockAt(next.lightUp ?? '', plan.timeZone)}.`;
}

/** Light-up, last charge, covered by; dashes where the day has none. */
export function threeTimes({ plan, reader }: SiteView, { state }: Standing): Markup {
  const { labels } = wordsFor(reader.language);
  const time = (instant: string | null) =>
    instant === null || state === 'void' ? '–' : clockAt(instant, plan.timeZone);
  const rows = [
    [labels.lightUp, time(plan.lightUp)],
    [labels.lastCharge, time(plan.lastCharge)],
    [labels.coveredBy, time(plan.coveredBy)],
  ];
  return html`<ol class="times">${rows.map(([label, clock]) => html`<li>${label ?? ''} <b>${clock ?? ''}</b></li>`)}</ol>`;
}

/** Made, fetched, worked out and void are four moments, never one "updated". */
export function ageLine({ plan, forecast, reader }: SiteView): Markup {
  const { labels, age } = wordsFor(reader.language);
  const { timeZone, madeAt } = plan;
  // Each moment names its date where it is another than that of the moment before it.
  let before = madeAt;
  const at = (instant: string) => {
    const text = momentAt(instant, timeZone, reader.language, before);
    before = instant;
    return text;
  };
  const old = forecast.ageMin === null ? null : html` (${age(forecast.ageMin)})`;
  const made =
    madeAt === null
      ? `${labels.forecastMade}: ${labels.missing}`
      : `${labels.forecastMade} ${momentAt(madeAt, timeZone, reader.language, null)}`;
  const isOld = plan.stale || forecast.state === 'stale' || forecast.state === 'none';
  const fetched = html`; ${labels.fetched} ${at(plan.fetchedAt)}`;
  const alerts =
    forecast.alertsReadAt === null ? null : html`; ${labels.alertsRead} ${at(forecast.alertsReadAt)}`;
  return html`<p class="age${isOld ? ' old' : ''}">${isOld ? html`<span class="loud">${labels.notFresh}</span>` : null}<b>${made}${old}</b>${fetched}${alerts}; ${labels.workedOut} ${at(plan.workedOutAt)}. ${plan.goodUntil === null ? null : html`${labels.voidAfter} ${at(plan.goodUntil)}.`}${faultOf(forecast.fault, labels.lastFault, at)}</p>`;
}

/** The fault is told in the source's own words, which are English. */
export const faultOf = (
  fault: SiteView['forecast']['fault'],
  label: string,
  at: (instant: string) => string,
): Markup | null => fault && html` ${label}, ${at(fault.at)}: <span lang="en">${fault.message}</span>.`;

/** What holds at this moment, and what it asks of the crew. Nothing on another day than today. */
export function nowBlock(view: SiteView): Markup | null {
  const { now, dayLabel, plan, reader } = view;
  if (dayLabel !== 'today') return null;
  const words = wordsFor(reader.language);
  const { labels } = words;
  if (now === null || (now.verdict === 'go' && !isTrusted(plan, view.forecast, view.nowMs))) {
    return html`<h2>${labels.now}</h2><p>${chip('unsaid', words)} ${words.orders.hold}</p>`;
  }
  const unsaid = now.verdict === 'hold' && heldUnknown(now.reasons);
  const holds = (r: (typeof now.reasons)[number]) => msOf(r.from) <= view.nowMs && view.nowMs < msOf(r.to);
  const reasons = toldOnce(now.reasons.filter((r) => r.verdict !== 'go' && holds(r))).slice(0, 3);
  const until = momentAt(now.to, plan.timeZone, reader.language, plan.workedOutAt);
  return html`<h2>${labels.now}</h2><p>${chip(unsaid ? 'unsaid' : now.verdict, words)} ${labels.until} <b class="num">${until}</b>. ${words.orders[now.verdict]}</p>
${reasons.length > 0 ? html`<ul>${reasons.map((r) => html`<li>${r.text}</li>`)}</ul>` : null}`;
}
