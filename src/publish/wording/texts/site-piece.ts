// The site's name at the head of a text, cut as far as the rest needs.

import { plainName } from './plain-name.ts';
import type { Piece } from './text-request.ts';

/** Septets of the name, and the rank at which it is cut to them. */
const CUTS: readonly (readonly [septets: number, rank: number])[] = [
  [36, 0],
  [28, 2],
  [20, 5],
  [15, 9],
  [10, 13],
];

export const sitePiece = (name: string, otherwise: string, after = ':'): Piece =>
  CUTS.map(([septets, rank]) => ({ text: `${plainName(name, septets, otherwise)}${after}`, rank }));
