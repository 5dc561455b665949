// Numbers of answers in tables and drawings.

import { type Language, numberText, roundTo } from '#publish/wording/show.ts';

/**
 * As few decimals as tell a value apart from its bound: 15.04 over a limit of 15 must not read 15. What is smaller than one
 * keeps three: a bound of 0.05 must not read 0.1.
 */
export function figure(value: number, bound: number | null, language: Language): string {
  const size = Math.abs(value);
  if (size > 0 && size < 1) return numberText(value, 3, language);
  const start = size >= 100 ? 0 : 1;
  for (let decimals = start; decimals < 3; decimals += 1) {
    const shown = roundTo(value, decimals);
    if (bound === null || Math.sign(shown - bound) === Math.sign(value - bound))
      return numberText(shown, decimals, language);
  }
  return numberText(value, 3, language);
}
