// The map of a board: counties about the pits that are shown, a pin for each, its smoke, and the same in words.

import type { Position } from '#core/units/position.ts';
import { html, type Markup } from '#publish/page/html.ts';
import { mapWords } from '#publish/wording/map-words.ts';
import { type Language, numberText, pointText, type UnitSystem } from '#publish/wording/show.ts';
import { type BaseMap, createBaseMaps, PER_PX } from './base-map.ts';
import { cross, fan, northArrow, type Pin, pins, scaleBar } from './draw-pins.ts';
import { HEIGHT, viewOf, WIDTH } from './view.ts';

export interface MapPin extends Pin {
  readonly name: string;
  /** Of its mark. */
  readonly word: string;
}

export interface MapAsked {
  readonly pins: readonly MapPin[];
  /** The place of a question; null where none was asked. */
  readonly asked: Position | null;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
}

/** More are left to the list. */
const MOST_TOLD = 30;

const baseOf = createBaseMaps();

/** Null where there is nothing to show. */
export async function boardMap({ pins: all, asked, reader }: MapAsked): Promise<Markup | null> {
  const view = viewOf([...all.map(({ place }) => place), ...(asked && all.length > 0 ? [asked] : [])]);
  if (view === null) return null;
  const words = mapWords(reader.language);
  const base = await baseOf(view);
  const { at } = base;
  const told = all.slice(0, MOST_TOLD).map(({ pin, name, word, smoke }) => {
    const toward =
      smoke && `${pointText(smoke.towardDeg, reader.language)} (${Math.round(smoke.towardDeg) % 360}°)`;
    return words.pin(pin, name, word, toward === null ? words.noDirection : words.toward(toward));
  });
  const more = all.length > MOST_TOLD ? ` ${words.more(all.length - MOST_TOLD)}` : '';
  const ground = groundText(base, reader.language);
  const label = `${words.title}. ${ground} ${told.join(' ')}${more}${asked === null ? '' : ` ${words.asked}`}`;
  const names = base.names.map(
    ({ name, x, y }) => html`<text class="county" x="${x}" y="${y}">${name}</text>`,
  );
  const notes = [
    ...(base.ground === 'counties' ? [] : [ground]),
    words.fans,
    ...(asked === null ? [] : [words.asked]),
    ...(base.ground === 'net' ? [] : [words.source]),
  ];
  return html`<figure class="map"><svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label="${label}"><path class="edge" d="M.5.5h${WIDTH - 1}v${HEIGHT - 1}H.5z"/><path class="lines" transform="scale(${1 / PER_PX})" d="${base.path}"/>${names}${all.map((pin) => fan(pin, view, at))}${asked && cross(asked, at)}${pins(all, at)}${scaleBar(view, reader.units)}${northArrow(words.north)}</svg><figcaption class="note">${notes.join(' ')}</figcaption></figure>`;
}

function groundText({ ground, county, names, netDeg }: BaseMap, language: Language): string {
  const words = mapWords(language);
  if (ground === 'counties')
    return words.counties(
      county,
      names.map(({ name }) => name),
    );
  return ground === 'states' ? words.states : words.net(numberText(netDeg ?? 0, 2, language));
}
