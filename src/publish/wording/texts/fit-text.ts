// A text out of its pieces, in one segment: whatever matters least is said more shortly first.

import { gsm7Length, SEGMENT_SEPTETS, toGsm7 } from './gsm7.ts';
import type { Piece } from './text-request.ts';

/** Always the same form. */
export const fixed = (text: string): Piece => [{ text, rank: 0 }];

/** Forms from long to short, each with the rank at which it is taken. */
export const forms = (
  first: string,
  ...shorter: readonly (readonly [rank: number, text: string])[]
): Piece => [{ text: first, rank: 0 }, ...shorter.map(([rank, text]) => ({ text, rank }))];

/** Throws where even the shortest forms are too long: a fault of the words, which a test must find. */
export function fitText(pieces: readonly Piece[], most: number = SEGMENT_SEPTETS): string {
  const at = pieces.map(() => 0);
  const fits = () => (gsm7Length(joined(pieces, at)) ?? Number.POSITIVE_INFINITY) <= most;
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

const joined = (pieces: readonly Piece[], at: readonly number[]): string =>
  toGsm7(
    pieces
      .map((piece, i) => piece[at[i] ?? 0]?.text ?? '')
      .filter((text) => text !== '')
      .join(' '),
  );

function leastToLose(pieces: readonly Piece[], at: readonly number[]): number | null {
  let least: { readonly i: number; readonly rank: number } | null = null;
  for (const [i, piece] of pieces.entries()) {
    const rank = piece[(at[i] ?? 0) + 1]?.rank;
    if (rank !== undefined && (least === null || rank < least.rank)) least = { i, rank };
  }
  return least?.i ?? null;
}
