// What was measured, in words.

import type { Language } from './show.ts';

export interface ReadingWords {
  wind(speed: string, from: string): string;
  variable(speed: string): string;
  readonly calm: string;
  readonly noWind: string;
  gust(speed: string): string;
  humidity(amount: string): string;
  /** Between the smallest and the largest. */
  readonly to: string;
}

const WORDS: Readonly<Record<Language, ReadingWords>> = {
  en: {
    wind: (speed, from) => `wind ${speed} from ${from}`,
    variable: (speed) => `wind ${speed}, from no one direction`,
    calm: 'calm',
    noWind: 'no wind told',
    gust: (speed) => `gust ${speed}`,
    humidity: (amount) => `humidity ${amount}`,
    to: 'to',
  },
  es: {
    wind: (speed, from) => `viento ${speed} del ${from}`,
    variable: (speed) => `viento ${speed}, de dirección variable`,
    calm: 'calma',
    noWind: 'sin dato de viento',
    gust: (speed) => `ráfaga ${speed}`,
    humidity: (amount) => `humedad ${amount}`,
    to: 'a',
  },
};

export const readingWords = (language: Language): ReadingWords => WORDS[language];
