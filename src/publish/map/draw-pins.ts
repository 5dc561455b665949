// What lies over the ground of a map: fans of smoke, pins with their letters, the place asked for, scale bar and north.

import { type Position, placeToward } from '#core/units/position.ts';
import { html, type Markup } from '#publish/page/html.ts';
import type { Mark } from '#publish/page/standing.ts';
import type { UnitSystem } from '#publish/wording/show.ts';
import { HEIGHT, type MapView, pxPerKm, WIDTH } from './view.ts';

export interface Pin {
  readonly pin: string;
  readonly place: Position;
  readonly mark: Mark;
  /** Null: it has no direction. */
  readonly smoke: { readonly towardDeg: number; readonly halfWidthDeg: number } | null;
}

type At = (place: Position) => readonly [number, number] | null;

const FAN_PX = 46;
const RING_PX = 17;
const PIN_PX = 20;

const fixed = (value: number): string => String(Math.round(value * 10) / 10);

/** By bearings on the ground, so that it is right wherever on the map. Nothing where its pit is not on the map. */
export function fan({ place, smoke }: Pin, view: MapView, at: At): Markup | null {
  const point = at(place);
  if (point === null) return null;
  const [x, y] = point;
  if (smoke === null) return html`<circle class="ring" cx="${fixed(x)}" cy="${fixed(y)}" r="${RING_PX}"/>`;
  const { towardDeg, halfWidthDeg } = smoke;
  const lengthM = (FAN_PX / pxPerKm(view)) * 1000;
  const steps = Math.max(2, Math.ceil(halfWidthDeg / 8));
  // Near an edge the arc leaves the map: it is drawn by the direction of its points, which lie within.
  const shortM = lengthM / 20;
  const arc = Array.from({ length: steps + 1 }, (_, i) => {
    const deg = towardDeg - halfWidthDeg + (2 * halfWidthDeg * i) / steps;
    const near = at(placeToward(place, deg, shortM)) ?? point;
    return `L${fixed(x + (near[0] - x) * 20)} ${fixed(y + (near[1] - y) * 20)}`;
  });
  return html`<path class="fan" d="M${fixed(x)} ${fixed(y)}${arc.join('')}Z"/>`;
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const meets = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Each letter beside its sign, on the side where nothing else stands. */
export function pins(all: readonly Pin[], at: At): Markup[] {
  const placed = all.flatMap((pin) => {
    const point = at(pin.place);
    return point ? [{ pin, x: point[0], y: point[1] }] : [];
  });
  const half = PIN_PX / 2;
  const taken: Box[] = placed.map(({ x, y }) => ({
    left: x - half,
    top: y - half,
    right: x + half,
    bottom: y + half,
  }));
  return placed.map(({ pin, x, y }) => {
    const wide = pin.pin.length * 11;
    const boxAt = (left: number, top: number): Box => ({ left, top, right: left + wide, bottom: top + 15 });
    const sides = [
      boxAt(x + half + 2, y - 8),
      boxAt(x - half - 2 - wide, y - 8),
      boxAt(x - wide / 2, y - half - 16),
      boxAt(x - wide / 2, y + half + 1),
    ].filter((box) => box.left >= 0 && box.right <= WIDTH && box.top >= 0 && box.bottom <= HEIGHT);
    const free = sides.find((box) => !taken.some((other) => meets(box, other)));
    const box = free ?? sides[0] ?? boxAt(x, y);
    taken.push(box);
    return html`<use class="pin-${pin.mark}" href="#i-${pin.mark}" x="${fixed(x - half)}" y="${fixed(y - half)}" width="${PIN_PX}" height="${PIN_PX}"/><text class="letter" x="${fixed(box.left)}" y="${fixed(box.top + 13)}">${pin.pin}</text>`;
  });
}

export function cross(place: Position, at: At): Markup | null {
  const point = at(place);
  if (point === null) return null;
  const [x, y] = point.map(Math.round) as [number, number];
  return html`<path class="asked" d="M${x - 9} ${y - 9}l18 18m0-18l-18 18"/>`;
}

const LENGTHS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000];

/** The longest round length that takes no more than a third of the width; right in the middle of the map. */
export function scaleBar(view: MapView, units: UnitSystem): Markup {
  const unit = units === 'us' ? 'mi' : 'km';
  const pxOf = (length: number): number => length * (units === 'us' ? 1.609344 : 1) * pxPerKm(view);
  const length = LENGTHS.findLast((one) => pxOf(one) <= WIDTH / 3) ?? 1;
  const px = fixed(pxOf(length));
  return html`<g class="bar" transform="translate(10 ${HEIGHT - 12})"><path d="M0-6V0H${px}V-6"/><text x="4" y="-5">${length} ${unit}</text></g>`;
}

export const northArrow = (letter: string): Markup =>
  html`<g class="north" transform="translate(${WIDTH - 20} 40)"><path d="M0 0V-24M-5-16L0-26L5-16"/><text y="14" text-anchor="middle">${letter}</text></g>`;
