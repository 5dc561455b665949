// A forecast document of any cell at any time, made from a recorded one: its moments are shifted by whole hours, its name
// and outline are the cell's. Size, layers and what compression makes of it stay those of the recorded one.

import { HOUR_MS } from '#core/units/time.ts';
import type { NationCell } from './nation.ts';
import { documents } from './pipeline.ts';

export interface DatedDocument {
  readonly bytes: Buffer;
  readonly updatedMs: number;
}

/** The text between what is the cell's own: outline, then name. */
interface Template {
  readonly pieces: readonly string[];
  readonly updatedMs: number;
}

const HOLE = '"hole": 0';
const INSTANT = /\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00/g;

const templates = documents().map(({ bytes }) => asTemplate(bytes));
/** Of the hours asked for last: texts with their moments shifted already. */
const shifted = new Map<string, Template>();

/** The newest document of a cell that is not after `untilMs`, made from the `turn`-th recorded one in rotation. */
export function datedDocument(cell: NationCell, untilMs: number, turn: number): DatedDocument {
  const { pieces, updatedMs } = shiftedTo(turn % templates.length, untilMs);
  const [head, middle, rest] = pieces;
  return { bytes: Buffer.from(`${head}${outline(cell)}${middle}${name(cell)}${rest}`, 'utf8'), updatedMs };
}

function shiftedTo(index: number, untilMs: number): Template {
  const template = templates[index];
  if (!template) throw new Error('there is no document to measure with');
  const hours = Math.floor((untilMs - template.updatedMs) / HOUR_MS);
  const key = `${index} ${hours}`;
  const known = shifted.get(key);
  if (known) return known;
  const move = (text: string): string =>
    `${new Date(Date.parse(text) + hours * HOUR_MS).toISOString().slice(0, 19)}+00:00`;
  const made = {
    pieces: template.pieces.map((piece) => piece.replace(INSTANT, move)),
    updatedMs: template.updatedMs + hours * HOUR_MS,
  };
  if (shifted.size >= 12) shifted.clear();
  shifted.set(key, made);
  return made;
}

function asTemplate(bytes: Uint8Array): Template {
  const document = JSON.parse(Buffer.from(bytes).toString('utf8'));
  const { gridId: _, gridX: __, gridY: ___, '@id': ____, ...layers } = document.properties;
  const { id: _____, geometry: ______, ...rest } = document;
  const text = JSON.stringify({ hole: 0, ...rest, properties: { hole: 0, ...layers } }, null, 2);
  const pieces = text.split(HOLE);
  if (pieces.length !== 3) throw new Error('a recorded document cannot be used');
  return { pieces, updatedMs: Date.parse(layers.updateTime) };
}

/** A cell of about 2.5 km with the place in its middle. */
function outline({ place: { latDeg, lonDeg } }: NationCell): string {
  const [north, south, east, west] = [latDeg + 0.0113, latDeg - 0.0113, lonDeg + 0.0135, lonDeg - 0.0135];
  const ring = [
    [west, north],
    [west, south],
    [east, south],
    [east, north],
    [west, north],
  ];
  return `"geometry": ${JSON.stringify({ type: 'Polygon', coordinates: [ring] })}`;
}

const name = ({ gridId, gridX, gridY }: NationCell): string =>
  `"gridId": "${gridId}", "gridX": ${gridX}, "gridY": ${gridY}`;
