// The amounts of a limit and its hour as text, which every language sets into its own sentences.

import type { LimitFigures, Verdict } from '#core/rules/finding.ts';
import { amountText, differenceText } from './show.ts';
import type { Reader } from './words.ts';

export interface LimitAmounts {
  /** With as many decimals as tell it from the bound. */
  readonly value: string;
  readonly bound: string;
  /** Without its sign. */
  readonly room: string;
}

export const limitAmounts = (f: LimitFigures, { units, language }: Reader): LimitAmounts => ({
  value: amountText(f.element, f.value, units, language, f.bound),
  bound: amountText(f.element, f.bound, units, language),
  room: differenceText(f.element, f.room, units, language),
});

/** True where a move towards that verdict is one to a higher value. */
export const movesUp = ({ side }: LimitFigures, towards: Verdict): boolean =>
  (side === 'atMost') === (towards !== 'go');
