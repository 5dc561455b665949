// Every hour of the day as a table: what was judged, with what, and where a figure is outside of its limit.

import { type Element, isElement } from '#core/series/elements.ts';
import { MISSING_REASONS, type MissingReason } from '#core/series/hourly-series.ts';
import { HOUR_MS, overlaps } from '#core/units/time.ts';
import type { HoursAnswer } from '#publish/wire.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { bearingText, type Language } from '#publish/wording/show.ts';
import { upperFirst } from '#publish/wording/text-case.ts';
import { dayName } from './answer-block.ts';
import { drawnSpan } from './drawn-span.ts';
import { figure } from './figure.ts';
import { html, type Markup } from './html.ts';
import { chip } from './mark.ts';
import { msOf } from './moments.ts';
import { shutTimes } from './reasons.ts';
import type { SiteView } from './site-view.ts';

type Hour = HoursAnswer['hours'][number];

/** `isVoid`: the figures stay, but no hour may say go any more. `names`: of the hours, in their order. */
export function hourTable(view: SiteView, isVoid: boolean, names: readonly string[]): Markup {
  const { hours, reader } = view;
  const { language } = reader;
  const words = wordsFor(language);
  const { labels } = words;
  const [before, after] = columnsOf(hours.hours);
  const head = (element: Element) =>
    html`<th scope="col">${upperFirst(words.elements[element])}${unitOf(hours.hours, element)}</th>`;
  const cells = (hour: Hour, elements: readonly Element[]) => elements.map((e) => cell(hour, e, language));
  // Paper has room for the hours of the drawings only.
  const drawn = drawnSpan(view, shutTimes(view.windows.windows));
  const isDrawn = ({ from }: Hour) => overlaps(drawn, { fromMs: msOf(from), toMs: msOf(from) + HOUR_MS });
  const rows = hours.hours.map(
    (
      hour,
      i,
    ) => html`<tr${isDrawn(hour) ? null : html` class="scr"`}><th scope="row">${names[i] ?? ''}</th><td>${chip(isVoid && hour.verdict === 'go' ? 'unsaid' : hour.verdict, words)}</td>${cells(hour, before)}<td>${smoke(hour, language)}</td>${cells(hour, after)}</tr>
`,
  );
  return html`<details class="hours"><summary><h2>${labels.everyHour}</h2></summary>
<p class="note">${labels.outOfLimit} d: ${labels.derived}.</p><div class="scroll" tabindex="0" role="region" aria-label="${labels.everyHour}"><table><caption>${hours.name}, ${dayName(view)}</caption>
<thead><tr><th scope="col">${labels.hour}</th><th scope="col">${labels.answer}</th>${before.map(head)}<th scope="col">${labels.smokeGoesToward}</th>${after.map(head)}</tr></thead>
<tbody>${rows}</tbody></table></div>${whyMissing(hours.hours, [...before, ...after], language)}</details>`;
}

/** Shown always, before and after the smoke; then whatever else has a limit. */
function columnsOf(hours: readonly Hour[]): [Element[], Element[]] {
  const before: Element[] = ['windSpeed', 'windGust'];
  const after: Element[] = ['relativeHumidity', 'mixingHeight'];
  const limited = new Set((hours[0]?.scores ?? []).map((s) => s.element).filter(isElement));
  const more = [...limited].filter((e) => !before.includes(e) && !after.includes(e));
  return [before, [...after, ...more]];
}

function unitOf(hours: readonly Hour[], element: Element): string {
  const unit = hours[0]?.values[element]?.unit ?? '1';
  return unit === '1' ? '' : ` (${unit})`;
}

function cell({ values, scores }: Hour, element: Element, language: Language): Markup {
  const found = values[element];
  if (!found || found.value === null) return html`<td>${wordsFor(language).labels.missing}</td>`;
  const broken = scores.find(
    (s) => s.element === element && s.applies && (s.class === 'hold' || s.class === 'stop'),
  );
  const text = figure(found.value, broken?.bound ?? null, language);
  const derived = found.derived ? html`<sup>d</sup>` : null;
  return html`<td>${broken ? html`<span class="out">${text}</span>` : text}${derived}</td>`;
}

const smoke = ({ smokeGoesToward }: Hour, language: Language): string =>
  smokeGoesToward === null ? wordsFor(language).labels.missing : bearingText(smokeGoesToward, language);

/** Why cells say that a value is missing, each element and cause once. */
function whyMissing(hours: readonly Hour[], elements: readonly Element[], language: Language): Markup | null {
  const words = wordsFor(language);
  const lines = new Set<string>();
  for (const { values } of hours) {
    for (const element of elements) {
      const why = values[element]?.missing ?? null;
      if (isReason(why))
        lines.add(
          `${upperFirst(words.elements[element])}, ${words.labels.missing}: ${words.whyMissing[why]}.`,
        );
    }
  }
  return lines.size === 0
    ? null
    : html`<ul class="note">${[...lines].map((line) => html`<li>${line}</li>`)}</ul>`;
}

const isReason = (text: string | null): text is MissingReason =>
  (MISSING_REASONS as readonly (string | null)[]).includes(text);
