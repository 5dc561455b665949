// One chain of messages: what stands, told from its beginning to its end. The first is an Alert, every later one an Update
// that names those before it, and the end an all-clear or a Cancel. What comes after an end is an Alert again.

import { MINUTE_MS } from '#core/units/time.ts';
import type { CapReference, CapTerms, MsgType } from './cap-alert.ts';

/** stands: it is so, until told otherwise. over: it is so no more. withdrawn: nobody says so any more, nor that it is over. */
export type CapSays =
  | { readonly kind: 'stands'; readonly terms: CapTerms; readonly untilMs: number }
  | { readonly kind: 'over'; readonly terms: CapTerms }
  | { readonly kind: 'withdrawn'; readonly terms: CapTerms };

/** A message that was published. */
export interface ChainMessage extends CapReference {
  readonly sentMs: number;
  readonly expiresMs: number;
  /** It is an all-clear or a Cancel. */
  readonly ends: boolean;
}

export interface ChainStep {
  readonly msgType: MsgType;
  readonly terms: CapTerms;
  /** To the whole second. */
  readonly sentMs: number;
  readonly expiresMs: number;
  readonly references: readonly CapReference[];
  readonly ends: boolean;
}

const ALL_CLEAR_FOR_MS = 30 * MINUTE_MS;

/** `earlier`: of the same chain, oldest first. Null: nothing of it stands, so that nothing is to be taken back. */
export function stepChain(earlier: readonly ChainMessage[], says: CapSays, atMs: number): ChainStep | null {
  const begins = earlier.findLastIndex(({ ends }) => ends) + 1;
  const chain = earlier.slice(begins);
  const isOpen = chain.length > 0;
  if (!isOpen && says.kind !== 'stands') return null;
  // A clock that was set back makes no message older than the one it follows.
  const lastMs = earlier.at(-1)?.sentMs ?? 0;
  const sentMs = Math.max(Math.floor(atMs / 1000) * 1000, lastMs);
  const step = {
    terms: says.terms,
    sentMs,
    references: namedBy(chain, sentMs),
    ends: says.kind !== 'stands',
  };
  if (says.kind === 'withdrawn') return { ...step, msgType: 'Cancel', expiresMs: sentMs };
  if (says.kind === 'over') return { ...step, msgType: 'Update', expiresMs: sentMs + ALL_CLEAR_FOR_MS };
  const expiresMs = Math.max(Math.ceil(says.untilMs / 1000) * 1000, sentMs + MINUTE_MS);
  return { ...step, msgType: isOpen ? 'Update' : 'Alert', expiresMs };
}

/** Every one that is still in force, and the last whatever its age: a receiver must find what is updated. */
const namedBy = (chain: readonly ChainMessage[], sentMs: number): CapReference[] =>
  chain
    .filter(({ expiresMs }, i) => expiresMs > sentMs || i === chain.length - 1)
    .map(({ sender, identifier, sent }) => ({ sender, identifier, sent }));
