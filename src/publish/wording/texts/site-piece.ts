// The site's name at the head of a text, cut as far as the rest needs.

import { forms } from './fit-text.ts';
import { plainName } from './plain-name.ts';
import type { Piece } from './text-request.ts';

const WHOLE_SEPTETS = 36;
/** Septets of the name, and the rank at which it is cut to them. */
const CUTS: readonly (readonly [septets: number, rank: number])[] = [
  [28, 2],
  [20, 5],
  [15, 9],
  [10, 13],
];

export const sitePiece = (name: string, otherwise: string, after = ':'): Piece => {
  const cut = (septets: number) => () => `${plainName(name, septets, otherwise)}${after}`;
  return forms(cut(WHOLE_SEPTETS), ...CUTS.map(([septets, rank]) => [rank, cut(septets)] as const));
};
