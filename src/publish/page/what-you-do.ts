// What a crew does on a day, in the order of the clock; and what it does not, where the day has no go.

import { dayWords } from '#publish/wording/day-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { html, type Markup } from './html.ts';
import { timeOf } from './plan-text.ts';
import type { SiteView } from './site-view.ts';
import type { Standing } from './standing.ts';

interface Step {
  readonly at: string;
  readonly deed: string;
}

export function whatYouDo(view: SiteView, { state, mark }: Standing): Markup {
  const { language } = view.reader;
  const { orders } = wordsFor(language);
  const words = dayWords(language);
  if (state === 'void') return html`<h2>${words.whatYouDo}</h2><p>${words.reload}</p><p>${orders.hold}</p>`;
  const order = mark === 'go' ? null : html`<p>${orders[mark === 'stop' ? 'stop' : 'hold']}</p>`;
  const steps = stepsOf(view).map(
    ({ at, deed }) => html`<li><b class="num">${at}</b> <span>${deed}</span></li>`,
  );
  return html`<h2>${words.whatYouDo}</h2>${order}${steps.length > 0 ? html`<ol class="rows todo">${steps}</ol>` : null}`;
}

function stepsOf({ plan, reader: { language } }: SiteView): Step[] {
  const words = dayWords(language);
  const { causes, warmUp, lightUp, lightUpBy, lastCharge, burnedDown, coveredBy } = plan;
  const at = (instant: string) => timeOf(instant, plan, language);
  const step = (instant: string | null, ...deed: (string | null)[]): [string, Step][] =>
    instant === null
      ? []
      : [[instant, { at: at(instant), deed: deed.filter((text) => text !== null).join(' ') }]];
  const steps = [
    ...step(warmUp, `${wordsFor(language).labels.warmUp}.`, causes.warmUp),
    ...step(lightUp, words.lightUp, lightUpBy && words.latest(at(lightUpBy))),
    ...plan.pauses.flatMap((p) => step(p.from, words.pauseUntil(at(p.to)))),
    ...step(lastCharge, words.lastCharge),
    ...step(burnedDown, words.burnedDown, causes.burnedDown),
    ...step(coveredBy, words.covered, causes.coveredBy),
  ];
  return steps.map(([, found]) => found);
}
