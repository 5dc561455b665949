// Words along the axis so that no two meet, at any width from the narrowest phone on.

/** Width of the drawing on a screen of 320 px: what fits there fits everywhere [px]. */
export const NARROWEST = 288;

export interface Wish {
  /** Where its middle should be [% of the width]. */
  readonly x: number;
  /** Its breadth at most [px]. */
  readonly breadth: number;
  /** Who comes first where two would meet: the larger; of equal ones the earlier. */
  readonly weight: number;
}

export type Anchor = 'start' | 'middle' | 'end';

export interface Placed<T extends Wish> {
  readonly wish: T;
  readonly x: number;
  readonly anchor: Anchor;
}

/** Class that sets the words so; those in the middle need none. */
export const ANCHOR_CLASS: Readonly<Record<Anchor, string>> = { start: ' ts', middle: '', end: ' te' };

/** Those that find a place, from left to right; at the edges words lean inwards. */
export function placeWords<T extends Wish>(wishes: readonly T[], apart: number): Placed<T>[] {
  const taken: { from: number; to: number; placed: Placed<T> }[] = [];
  for (const wish of [...wishes].sort((a, b) => b.weight - a.weight)) {
    const { placed, from } = leaning(wish);
    const to = from + wish.breadth;
    const isFree = taken.every((other) => to + apart <= other.from || other.to + apart <= from);
    if (isFree) taken.push({ from, to, placed });
  }
  return taken.sort((a, b) => a.from - b.from).map(({ placed }) => placed);
}

function leaning<T extends Wish>(wish: T): { placed: Placed<T>; from: number } {
  const middle = (wish.x / 100) * NARROWEST;
  const from = middle - wish.breadth / 2;
  if (from < 0) return { placed: { wish, x: 0, anchor: 'start' }, from: 0 };
  if (from + wish.breadth > NARROWEST)
    return { placed: { wish, x: 100, anchor: 'end' }, from: NARROWEST - wish.breadth };
  return { placed: { wish, x: wish.x, anchor: 'middle' }, from };
}

/** Breadth of a text of 13 px at most: digits, then letters, then what is narrow. */
export function breadthOf(text: string, isBold = false): number {
  let sum = 0;
  for (const sign of text) sum += breadthOfSign(sign);
  return sum * (isBold ? 1.12 : 1);
}

function breadthOfSign(sign: string): number {
  if (/[.,:;'il |]/.test(sign)) return 4.6;
  if (/[mwMWOQ%]/.test(sign)) return 13;
  return /[A-Z]/.test(sign) ? 9.6 : 8.4;
}
