// Letters at the beginning of a word, and numbers of answers. Text in, text out.

import { type Language, numberText, roundTo } from '#publish/wording/show.ts';

export const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

export const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

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
