// The day sheet as a page: to be read on a phone, and printed on one side of paper.

import { html, type Markup } from '#publish/page/html.ts';
import type { Query } from '#publish/page/links.ts';
import { siteLink } from '#publish/page/links.ts';
import { chip } from '#publish/page/mark.ts';
import { page } from '#publish/page/shell.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import type { UnitSystem } from '#publish/wording/show.ts';
import type { Sheet } from './sheet.ts';
import type { SheetCell } from './sheet-hours.ts';
import { SHEET_STYLE } from './sheet-style.ts';

export interface SheetPageView {
  readonly sheet: Sheet;
  readonly id: string;
  readonly date: string;
  readonly zone: { readonly timeZone: string; readonly atMs: number };
  readonly demo: boolean;
  readonly units: UnitSystem;
  readonly query: Query;
}

/** More than this on a sheet is set smaller. */
const ROOMY = 1500;

export function sheetPage({ sheet, id, date, zone, demo, units, query }: SheetPageView): string {
  const { language } = sheet;
  const own = sheetWords(language);
  const words = wordsFor(language);
  const times = sheet.times.map(([label, clock]) => html`<li>${label} <b>${clock}</b></li>`);
  const pauses = sheet.pauses.length === 0 ? null : html`<p>${sheet.pauses.join('; ')}</p>`;
  return page({
    title: `${own.title}: ${sheet.site}, ${sheet.day}`,
    language,
    demo,
    choice: { units, query },
    zone,
    isHome: false,
    style: SHEET_STYLE,
    main: html`<div class="sheet${breadthOf(sheet) > ROOMY ? ' tight' : ''}">${acts(id, date, query, sheet)}${sheet.demo === null ? null : html`<p class="demo">${sheet.demo}</p>`}<div class="hd">${sheet.head.map((text) => html`<p>${text}</p>`)}</div>
<h1>${sheet.site}. ${sheet.day}</h1><div class="void"><b>${sheet.voidAfter}</b> ${sheet.voidNotes.join('. ')}</div>
<p class="ans">${chip(sheet.mark, words)} <span>${sheet.reason}</span></p><ol class="times">${times}</ol>${pauses}${hoursOf(sheet)}
<div class="g2"><div>${list(own.places, sheet.places)}${list(own.change, sheet.change)}${list(own.where, sheet.where)}</div><div><h2>${own.say}</h2><ul class="ck">${sheet.tailgate.map((text) => html`<li>${text}</li>`)}</ul></div></div>
${writeDown(sheet)}<p class="cau">${sheet.caution}</p></div>`,
  });
}

/** How much there is to be set: letters that vary from site to site. */
const breadthOf = ({ site, rows, places, change, tailgate, reason }: Sheet): number =>
  [site, reason ?? '', ...rows.map((r) => r.name + r.limit), ...places, ...change, ...tailgate].join('')
    .length +
  rows.length * 40;

function acts(id: string, date: string, query: Query, { language }: Sheet): Markup {
  const own = sheetWords(language);
  const { look: _look, ...choices } = query;
  const pdf = (paper: string): string =>
    `/sites/${encodeURIComponent(id)}/sheet.pdf?${new URLSearchParams({ ...choices, day: date, paper })}`;
  return html`<p class="acts"><a class="tap" href="${siteLink(id, query, date)}">${wordsFor(language).labels.theDay}</a> <a class="tap" href="${pdf('letter')}">${own.letter}</a> <a class="tap" href="${pdf('a4')}">${own.a4}</a></p>`;
}

const list = (title: string, texts: readonly string[]): Markup | null =>
  texts.length === 0 ? null : html`<h2>${title}</h2><ul>${texts.map((text) => html`<li>${text}</li>`)}</ul>`;

function hoursOf(sheet: Sheet): Markup {
  const own = sheetWords(sheet.language);
  const names = sheet.hours.map(({ name }) => html`<th scope="col">${name}</th>`);
  const rows = sheet.rows.map(
    ({ name, limit, cells }) => html`<tr><th scope="row"><b>${name}</b> ${limit}</th>${cells.map(cell)}</tr>`,
  );
  const smoke = sheet.smoke.map(
    ({ towardDeg, text }) => html`<td>${towardDeg === null ? null : arrow(towardDeg)}${text}</td>`,
  );
  return html`<h2>${own.dayByHour}</h2><div class="scroll" tabindex="0" role="region" aria-label="${own.dayByHour}"><table class="hrs"><thead><tr><th scope="col">${own.limits}</th>${names}</tr></thead><tbody><tr><td></td><td class="onaxis" colspan="${sheet.hours.length}">${band(sheet)}</td></tr>${rows}<tr><th scope="row"><b>${own.smoke}</b></th>${smoke}</tr></tbody></table></div><p class="note">${own.outOf}</p>`;
}

function cell({ text, beyond }: SheetCell): Markup {
  if (beyond === null) return html`<td>${text}</td>`;
  return html`<td><span class="${beyond === 'stop' ? 'st' : 'out'}">${text}</span></td>`;
}

const arrow = (deg: number): Markup =>
  html`<svg class="arrow" viewBox="-12 -12 24 24" aria-hidden="true"><path d="M0 10V-9M-5-3 0-10 5-3" transform="rotate(${deg})"/></svg>`;

const FILL = { go: '#fff', hold: 'url(#p-hold)', stop: 'url(#p-stop)', shut: 'url(#p-shut)' } as const;

function band({ band: { span, blocks, marksMs, told } }: Sheet): Markup {
  const x = (ms: number): string => (((ms - span.fromMs) / (span.toMs - span.fromMs)) * 1000).toFixed(1);
  const drawn = blocks.map(
    (b) =>
      html`<rect x="${x(b.fromMs)}" y="0" width="${(Number(x(b.toMs)) - Number(x(b.fromMs))).toFixed(1)}" height="30" fill="${FILL[b.kind]}" class="ln"/>`,
  );
  const marks = marksMs.map((ms) => html`<path class="ln" stroke-width="4" d="M${x(ms)} 0V30"/>`);
  return html`<svg class="band" viewBox="0 0 1000 30" preserveAspectRatio="none" role="img" aria-label="${told}">${drawn}${marks}</svg>`;
}

function writeDown({ language }: Sheet): Markup {
  const own = sheetWords(language);
  const [first, ...others] = own.columns;
  const head = own.columns.map((text) => html`<th scope="col">${text}</th>`);
  const row = (text: string): Markup =>
    html`<tr><th scope="row">${text}</th>${others.map(() => html`<td></td>`)}</tr>`;
  return html`<h2>${own.write}</h2><table class="wd" aria-label="${own.write}: ${first}"><thead><tr>${head}</tr></thead><tbody>${own.rows.map(row)}</tbody></table>`;
}
