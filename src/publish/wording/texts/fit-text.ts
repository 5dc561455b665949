// A text out of its pieces, in one segment: whatever matters least is said more shortly first.

import { gsm7Length, SEGMENT_SEPTETS, toGsm7 } from './gsm7.ts';
import type { Form, Piece } from './text-request.ts';

type Said = string | (() => string);

/** Always the same form. */
export const fixed = (text: string): Piece => [formOf(text, 0)];

/** Forms from long to short, each with the rank at which it is taken; a function is asked only where it comes to that. */
export const forms = (first: Said, ...shorter: readonly (readonly [rank: number, text: Said])[]): Piece => [
  formOf(first, 0),
  ...shorter.map(([rank, text]) => formOf(text, rank)),
];

function formOf(said: Said, rank: number): Form {
  let text: string | null = null;
  return {
    rank,
    text() {
      text ??= toGsm7(typeof said === 'string' ? said : said());
      return text;
    },
  };
}

/** Throws where even the shortest forms are too long: a fault of the words, which a test must find. */
export function fitText(pieces: readonly Piece[], most: number = SEGMENT_SEPTETS): string {
  const at = pieces.map(() => 0);
  const fits = () => lengthOf(pieces, at) <= most;
  while (!fits()) {
    const next = leastToLose(pieces, at);
    if (next === null) throw new RangeError(`no form of this text fits: ${joined(pieces, at)}`);
    at[next] = (at[next] ?? 0) + 1;
  }
  giveBack(pieces, at, fits);
  return joined(pieces, at);
}

/** The last cut may have been larger than needed: what matters most is said more fully again, where there is room. */
function giveBack(pieces: readonly Piece[], at: number[], fits: () => boolean): void {
  const cuts = pieces.flatMap((piece, i) => piece.map(({ rank }, form) => ({ i, form, rank })));
  for (const { i, form } of cuts.sort((a, b) => b.rank - a.rank)) {
    if (form === 0 || at[i] !== form) continue;
    at[i] = form - 1;
    if (!fits()) at[i] = form;
  }
}

const said = (pieces: readonly Piece[], at: readonly number[]): string[] =>
  pieces.map((piece, i) => piece[at[i] ?? 0]?.text() ?? '').filter((text) => text !== '');

const joined = (pieces: readonly Piece[], at: readonly number[]): string => said(pieces, at).join(' ');

const lengthOf = (pieces: readonly Piece[], at: readonly number[]): number =>
  gsm7Length(joined(pieces, at)) ?? Number.POSITIVE_INFINITY;

function leastToLose(pieces: readonly Piece[], at: readonly number[]): number | null {
  let least: { readonly i: number; readonly rank: number } | null = null;
  for (const [i, piece] of pieces.entries()) {
    const rank = piece[(at[i] ?? 0) + 1]?.rank;
    if (rank !== undefined && (least === null || rank < least.rank)) least = { i, rank };
  }
  return least?.i ?? null;
}
