// The board as a map with tiles: the ground of the operator's own file, drawn by a script; the signs and their list are written
// here, and stand without it.

import { html, type Markup } from '#publish/page/html.ts';
import { boardLink, siteLink } from '#publish/page/links.ts';
import { chip } from '#publish/page/mark.ts';
import { page } from '#publish/page/shell.ts';
import type { Mark } from '#publish/page/standing.ts';
import { boardWords } from '#publish/wording/board-words.ts';
import { groundWords } from '#publish/wording/ground-words.ts';
import { wordsFor } from '#publish/wording/say.ts';
import { boardAge } from './board-age.ts';
import { pageLinks } from './board-page.ts';
import { unplacedRows } from './board-rows.ts';
import { BOARD_STYLE } from './board-style.ts';
import type { BoardPits } from './board-view.ts';
import { GROUND_STYLE } from './ground-sheet.ts';
import { signOf } from './ground-sign.ts';

export interface GroundView extends BoardPits {
  readonly pits: readonly GroundPit[];
  readonly script: string;
  readonly library: { readonly module: string; readonly worker: string };
  /** MapLibre styles, as JSON. */
  readonly styles: { readonly day: string; readonly night: string };
  /** West, south, east, north [degrees]; east may lie beyond 180. */
  readonly bounds: readonly [number, number, number, number];
  readonly attribution: string | null;
}

export interface GroundPit {
  readonly pin: string;
  readonly id: string;
  readonly name: string;
  /** Longitude as the bounds count it. */
  readonly at: readonly [number, number];
  readonly mark: Mark;
  /** Null: smoke without a direction. */
  readonly smoke: { readonly towardDeg: number; readonly halfWidthDeg: number } | null;
}

export function groundPage(view: GroundView): string {
  const { reader, query, timeZone, writtenMs, attribution } = view;
  const words = groundWords(reader.language);
  const board = boardWords(reader.language);
  const counted = board.count(view.burnCount, view.goCount);
  const owed = attribution === null ? null : html`<p class="note">${words.ground(attribution)}</p>`;
  return page({
    title: `${words.title}: ${counted}`,
    language: reader.language,
    demo: view.demo,
    choice: { units: reader.units, query },
    zone: { timeZone, atMs: writtenMs },
    isHome: false,
    style: html`${BOARD_STYLE}${GROUND_STYLE}`,
    main: html`<h1 class="all">${words.title}</h1><p class="sum">${counted}</p>${boardAge(view, false)}
<p><a class="tap" href="${boardLink(query)}">${words.board}</a></p>${place(view)}<p class="bad" id="map-holes" hidden>${words.holes}</p>
<p class="note">${words.note}</p>${owed}${unplacedRows(view)}<ul class="rows pits">${view.pits.map((pit) => row(pit, view))}</ul>${pageLinks(view)}<p class="note">${board.fromTaps}</p><script src="${view.script}" defer></script>`,
  });
}

function place({ library, styles, bounds, reader }: GroundView): Markup {
  const words = groundWords(reader.language);
  const units = reader.units === 'us' ? 'imperial' : 'metric';
  return html`<div id="map" role="group" aria-label="${words.title}" data-library="${library.module}" data-worker="${library.worker}" data-day="${styles.day}" data-night="${styles.night}" data-bounds="${JSON.stringify(bounds)}" data-units="${units}" data-fault="${words.fault}"><p>${words.noScript}</p></div>
<p id="map-buttons" hidden><button type="button" id="map-nearer">${words.nearer}</button> <button type="button" id="map-farther">${words.farther}</button> <button type="button" id="map-all">${words.all}</button></p>`;
}

function row({ pin, id, name, at, mark, smoke }: GroundPit, { reader, query }: GroundView): Markup {
  const link = siteLink(id, query, null);
  const words = wordsFor(reader.language);
  const label = `${pin} ${name}`;
  return html`<li data-pit="${at.join(',')}"><div class="pit"><a class="sign" href="${link}" aria-label="${label}">${signOf(mark, smoke)}<b>${pin}</b></a><b class="name"><a href="${link}">${name}</a></b>${chip(mark, words)}</div></li>`;
}
