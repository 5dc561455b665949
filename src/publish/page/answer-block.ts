// The first screen of a site: the answer, the three times with their pauses, and the age of the forecast.

import { wordsFor } from '#publish/wording/say.ts';
import { dateText } from '#publish/wording/show.ts';
import { lowerFirst, upperFirst } from '#publish/wording/text-case.ts';
import { html, type Markup } from './html.ts';
import { shape, wordOf } from './mark.ts';
import { momentAt, msOf } from './moments.ts';
import { burnText, lateText, pausesText, pauseText, timeOf } from './plan-text.ts';
import { firstReason, reasonsNow, whyNoGo } from './reasons.ts';
import { nowFor, type SiteView } from './site-view.ts';
import { type Standing, standingOf } from './standing.ts';

/** A date is not to be torn apart at the end of a line. */
const NO_BREAK = '\u00a0';

export function answerBlock(view: SiteView, standing: Standing): Markup {
  const { plan, reader } = view;
  const words = wordsFor(reader.language);
  const word = wordOf(standing.mark, words);
  const [first, second, pauses] = spanOf(view, standing);
  const span =
    second === '' ? null : html` <span class="t">${first}${first === '' ? null : html`<br>`}${second}</span>`;
  const held = pauses === '' ? null : html`<span class="p"><span class="skip">, </span>${pauses}</span>`;
  return html`<section class="call ${standing.mark}"><h1>${plan.name}. ${dayName(view).replaceAll(' ', NO_BREAK)}<span class="skip">: </span>
<span class="w${word.length > 6 ? ' long' : ''}"><span class="v">${shape(standing.mark)}${word}</span>${span}</span>${held}</h1>${sentences(view, standing).map((s) => html`<p>${s}</p>`)}</section>`;
}

/** The answer as a line of text, for the title: "GO 8:04 am until 2:19 pm, no wood 11:00 am to 12:00 pm". */
export function answerLine(view: SiteView, standing: Standing): string {
  const [first, second, pauses] = spanOf(view, standing);
  const word = wordOf(standing.mark, wordsFor(view.reader.language));
  return `${[word, first, second].filter((text) => text !== '').join(' ')}${pauses === '' ? '' : `, ${pauses}`}`;
}

/** From, until and the pauses of a go; of a mark of this moment until when it holds; else nothing. */
function spanOf({ plan, now, reader }: SiteView, { mark, state, byNow }: Standing): [string, string, string] {
  const { language } = reader;
  const { until } = wordsFor(language).labels;
  if (byNow && now !== null) return ['', `${until} ${timeOf(now.to, plan, language)}`, ''];
  if (mark !== 'go' || state !== 'ok' || plan.lightUp === null || plan.lastCharge === null)
    return ['', '', ''];
  const last = timeOf(plan.lastCharge, plan, language);
  return [
    timeOf(plan.lightUp, plan, language),
    `${until} ${last}`,
    pausesText(plan, language).replace(/^, /, ''),
  ];
}

export function dayName({ plan, reader, dayLabel }: SiteView): string {
  const date = dateText(plan.day, reader.language);
  return dayLabel === null ? date : `${wordsFor(reader.language).labels[dayLabel]}, ${date}`;
}

function sentences(view: SiteView, { state, mark, byNow, byLive }: Standing): string[] {
  const { plan, windows, now, live, nowMs, reader } = view;
  const { labels } = wordsFor(reader.language);
  const held = byNow ? reasonsNow(now, nowMs).slice(0, 1) : [];
  const because = held.map((r) => r.text);
  if (state === 'void') return [...because, labels.notFresh];
  // Of a fire that burns its own block tells.
  if (byLive && live !== null && live.burn === null) return [live.text];
  if (state === 'charge') return [...because, lateText(plan, reader.language, now), ...pausesOf(view)];
  if (state === 'over')
    return [...because, `${labels.noMoreWoodSince} ${timeOf(plan.lastCharge ?? '', plan, reader.language)}.`];
  if (mark === 'go') return plan.tightest === null ? [] : [plan.tightest.text];
  const burn = burnText(plan, reader.language);
  if (burn !== null) return [...because, `${burn}.`];
  const reason = firstReason(plan) ?? whyNoGo(plan, windows.windows).others[0]?.text ?? null;
  const next = nextWindow(view);
  const told = new Set([...because, ...(reason === null ? [] : [reason])]);
  return [...told, ...(next === null ? [] : [next])];
}

/** Pauses that are not over yet, as sentences. */
const pausesOf = ({ plan, nowMs, reader }: SiteView): string[] =>
  plan.pauses
    .filter((p) => msOf(p.to) > nowMs)
    .map((p) => `${upperFirst(pauseText(p, plan, reader.language))}.`);

/** A held day is worth little without the day that is not. */
function nextWindow(view: SiteView): string | null {
  const { plan, forecast, nowMs, week, reader } = view;
  const { labels } = wordsFor(reader.language);
  const next = week.find(
    (d) =>
      d.day > plan.day && d.lightUp !== null && standingOf(d, forecast, nowMs, nowFor(view, d)).mark === 'go',
  );
  if (!next) return null;
  return `${labels.nextWindow}: ${dateText(next.day, reader.language)}, ${labels.from} ${timeOf(next.lightUp ?? '', next, reader.language)}.`;
}

/** Light-up, last charge, covered by, dashes where the day has none; the pauses; and until when it may be lit at all. */
export function threeTimes({ plan, reader }: SiteView, { state, byLive }: Standing): Markup {
  const { labels } = wordsFor(reader.language);
  const isVoid = state === 'void';
  const time = (instant: string | null) =>
    instant === null || isVoid ? '–' : timeOf(instant, plan, reader.language);
  const rows = [
    [labels.lightUp, time(plan.lightUp)],
    [labels.lastCharge, time(plan.lastCharge)],
    [labels.coveredBy, time(plan.coveredBy)],
  ];
  const pauses = isVoid ? [] : plan.pauses;
  const wide = pauses.map(
    (p) => html`<li class="wide">${labels.pause} <b>${time(p.from)} – ${time(p.to)}</b></li>`,
  );
  const latest =
    byLive || (state !== 'ok' && state !== 'pause') || plan.lightUp === null || plan.lightUpBy === null
      ? null
      : html`<p class="note latest">${labels.lightUp} ${time(plan.lightUp)}, ${lowerFirst(labels.lightUpBy)} ${time(plan.lightUpBy)}.</p>`;
  return html`<ol class="times">${rows.map(([label, clock]) => html`<li>${label ?? ''} <b>${clock ?? ''}</b></li>`)}${wide}</ol>${latest}`;
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
  const worked = html`; ${labels.workedOut} ${at(plan.workedOutAt)}`;
  const next = forecast.nextDueAt === null ? null : html`; ${labels.nextDue} ${at(forecast.nextDueAt)}`;
  return html`<p class="age${isOld ? ' old' : ''}">${isOld ? html`<span class="loud">${labels.notFresh}</span>` : null}<b>${made}${old}</b>${fetched}${alerts}${worked}${next}. ${plan.goodUntil === null ? null : html`${labels.voidAfter} ${at(plan.goodUntil)}.`}${faultOf(forecast.fault, labels.lastFault, at)}</p>`;
}

/** The fault is told in the source's own words, which are English. */
export const faultOf = (
  fault: SiteView['forecast']['fault'],
  label: string,
  at: (instant: string) => string,
): Markup | null => fault && html` ${label}, ${at(fault.at)}: <span lang="en">${fault.message}</span>.`;
