// Numbers of answers in the table of hours.

import { type Language, numberText, roundTo } from '#publish/wording/show.ts';

/** As few decimals as tell a value apart from its bound: 15.04 over a limit of 15 must not read 15. */
export function figure(value: number, bound: number | null, language: Language): string {
  const start = Math.abs(value) >= 100 ? 0 : 1;
  for (let decimals = start; decimals < 3; decimals += 1) {
    const shown = roundTo(value, decimals);
    if (bound === null || Math.sign(shown - bound) === Math.sign(value - bound))
      return numberText(shown, decimals, language);
  }
  return numberText(value, 3, language);
}
