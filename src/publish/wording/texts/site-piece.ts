// The site's name at the head of a text, cut as far as the rest needs.

import { forms } from './fit-text.ts';
import { plainName } from './plain-name.ts';
import type { Piece } from './text-request.ts';

/** At the head of every text of the demonstration, however short the rest is cut. */
const DEMO = 'DEMO ';
const WHOLE_SEPTETS = 36;
const LEAST_SEPTETS = 8;
/** Septets of the name, and the rank at which it is cut to them. */
const CUTS: readonly (readonly [septets: number, rank: number])[] = [
  [28, 2],
  [20, 5],
  [15, 9],
  [10, 13],
];

export const sitePiece = (name: string, otherwise: string, after = ':'): Piece => {
  const mark = name.startsWith(DEMO) ? DEMO : '';
  const plain = (septets: number): string =>
    plainName(name.slice(mark.length), Math.max(LEAST_SEPTETS, septets - mark.length), otherwise);
  const cut = (septets: number) => () => `${mark}${plain(septets)}${after}`;
  return forms(cut(WHOLE_SEPTETS), ...CUTS.map(([septets, rank]) => [rank, cut(septets)] as const));
};
