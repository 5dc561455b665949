// What somebody who was texted answers. Pure. Reserved words come first, and count as the whole message alone, as carriers
// have it: "No mas lena, ya tapamos" is news from a burn. A message that has one in it acknowledges nothing all the same.

import {
  foldWords,
  HELP_WORDS,
  OPT_IN_WORDS,
  OPT_OUT_WORDS,
  reservedWordIn,
} from '#publish/wording/texts/reserved-words.ts';

export type Inbound =
  /** Nothing more may be sent to that number until it opts in again. */
  | { readonly kind: 'opt-out'; readonly word: string }
  | { readonly kind: 'opt-in'; readonly word: string }
  /** 1: got it. 2: cannot, call me. */
  | { readonly kind: 'answer'; readonly digit: 1 | 2 }
  /** Somebody should read it; it is no acknowledgement. */
  | { readonly kind: 'other' };

export function readInbound(text: string): Inbound {
  const folded = foldWords(text);
  const optOut = OPT_OUT_WORDS.find((word) => folded === word);
  if (optOut !== undefined) return { kind: 'opt-out', word: optOut };
  // To opt in is said alone: "yes we put it out" must not count as consent.
  const optIn = OPT_IN_WORDS.find((word) => folded === word);
  if (optIn !== undefined) return { kind: 'opt-in', word: optIn };
  if (beginsWith(folded, [...OPT_OUT_WORDS, ...OPT_IN_WORDS, ...HELP_WORDS]) !== null)
    return { kind: 'other' };
  const digit = /^([12])(?: |$)/.exec(folded)?.[1];
  if (digit === undefined || isDoubtful(folded.slice(1))) return { kind: 'other' };
  return { kind: 'answer', digit: digit === '1' ? 1 : 2 };
}

const beginsWith = (folded: string, words: readonly string[]): string | null =>
  words.find((word) => folded === word || folded.startsWith(`${word} `) || folded.startsWith(`${word}-`)) ??
  null;

/** "1 or 2?", "1 stop": a digit first, and then something that takes it back or asks. */
const isDoubtful = (rest: string): boolean => /(^| )[0-9]/.test(rest) || reservedWordIn(rest) !== null;
