// Why these times, or why none; what would change it; what is worth knowing. Sentences of the answers, none told twice.

import type { PlanAnswer, Reason, WindowsAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import type { Words } from '#publish/wording/words.ts';
import { html, type Markup } from './html.ts';
import { chip } from './mark.ts';
import { timeOf } from './plan-text.ts';
import { adviceOf, heldUnknown, toldOnce, whyNoGo } from './reasons.ts';
import type { SiteView } from './site-view.ts';

/** More reasons than this are left to the list of windows. */
const MOST_REASONS = 6;

const list = (texts: readonly string[]): Markup | null =>
  texts.length === 0 ? null : html`<ul>${[...new Set(texts)].map((text) => html`<li>${text}</li>`)}</ul>`;

const told = (reasons: readonly Reason[]): string[] =>
  toldOnce(reasons)
    .slice(0, MOST_REASONS)
    .map((r) => r.text);

export function whySection(view: SiteView): Markup {
  const { plan, reader } = view;
  const { labels } = wordsFor(reader.language);
  return plan.lightUp === null || plan.lastCharge === null
    ? html`<h2>${labels.whyNone}</h2>${noGo(view)}`
    : html`<h2>${labels.whyTheseTimes}</h2>${times(view, plan.lightUp, plan.lastCharge)}`;
}

function times({ plan, reader }: SiteView, lightUp: string, lastCharge: string): Markup {
  const { labels } = wordsFor(reader.language);
  const at = (instant: string | null) => (instant === null ? '' : timeOf(instant, plan, reader.language));
  const { causes } = plan;
  const before = told(causes.lightUp);
  const after = told(causes.lastCharge);
  return html`${before.length > 0 ? html`<h3>${labels.whyNotBefore} ${at(lightUp)}</h3>${list(before)}` : null}
${after.length > 0 ? html`<h3>${labels.whyStopCharging} ${at(lastCharge)}</h3>${list(after)}` : null}
${plan.pauses.map((p) => html`<h3>${labels.pause}, ${labels.from} ${at(p.from)} ${labels.until} ${at(p.to)}</h3>${list(told(p.reasons))}`)}`;
}

function noGo({ plan, windows, reader }: SiteView): Markup {
  const { labels } = wordsFor(reader.language);
  const { barring, others } = whyNoGo(plan, windows.windows);
  const bars = told(barring);
  // The order of `others` is their weight; they are told once already.
  const rest = others.slice(0, MOST_REASONS - Math.min(3, bars.length)).map((r) => r.text);
  const isEmpty = bars.length === 0 && rest.length === 0;
  const besides = bars.length > 0 && rest.length > 0 ? html`<h3>${labels.besides}</h3>` : null;
  return html`${bars.length > 0 ? html`<p>${labels.whateverTheValues}</p>${list(bars)}` : null}${besides}${list(rest)}${isEmpty ? html`<p>${labels.noWindow}</p>` : null}`;
}

/** The next change is counted from now; on another day it would only tell that nights are dark. */
export function changeSection({ plan, reader, dayLabel }: SiteView): Markup | null {
  const { labels } = wordsFor(reader.language);
  const { moves } = plan.wouldChange;
  const next = dayLabel === 'today' ? plan.wouldChange.next : null;
  const lead = moves.length > 1 && plan.lightUp === null ? html`<p>${labels.allOfThese}</p>` : null;
  const toldAlready = new Set([...plan.causes.lightUp, ...plan.causes.lastCharge].map((r) => r.text));
  const why = toldOnce(
    next?.reasons.filter((r) => r.verdict === next.to && !toldAlready.has(r.text)) ?? [],
  )[0];
  const texts = moves.map((m) => m.text);
  if (texts.length === 0 && next === null) return null;
  const after = next && html`<p>${next.text} ${next.to === 'go' || why === undefined ? null : why.text}</p>`;
  return html`<h2>${labels.wouldChange}</h2>${lead}${list(texts)}${after}`;
}

export function adviceSection({ windows, reader }: SiteView): Markup | null {
  const advice = told(adviceOf(windows.windows));
  return advice.length === 0
    ? null
    : html`<h2>${wordsFor(reader.language).labels.advice}</h2>${list(advice)}`;
}

/** Every window of the day with every reason; closed until somebody asks. */
export function windowList({ windows, plan, reader }: SiteView): Markup {
  const words = wordsFor(reader.language);
  return html`<details><summary><h2>${words.labels.windows}</h2></summary><ul class="rows">${windows.windows.map((w) => windowRow(w, plan, words))}</ul></details>`;
}

function windowRow(window: WindowsAnswer['windows'][number], plan: PlanAnswer, words: Words): Markup {
  const { labels } = words;
  const at = (instant: string) => timeOf(instant, plan, plan.lang);
  const isUnsaid = window.verdict === 'hold' && heldUnknown(window.reasons);
  const span = `${labels.from} ${at(window.from)} ${labels.until} ${at(window.to)}`;
  const tightest = window.tightest?.class === 'go' ? [window.tightest.text] : [];
  const texts = [...window.reasons.filter((r) => r.code !== 'within-limits').map((r) => r.text), ...tightest];
  return html`<li>${chip(isUnsaid ? 'unsaid' : window.verdict, words)} <b class="num">${span}</b>${list(texts)}</li>`;
}
