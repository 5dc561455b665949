// Words of the calendar of go windows.

import type { Language } from './show.ts';

export interface CalendarWords {
  readonly calendar: string;
  go(site: string): string;
  lightBy(when: string): string;
  /** A calendar looks seldom, and knows of no wind that turns. */
  readonly caution: string;
  readonly takenBack: string;
  readonly demo: string;
}

const WORDS: Readonly<Record<Language, CalendarWords>> = {
  en: {
    calendar: 'Go windows',
    go: (site) => `Go by forecast: ${site}`,
    lightBy: (when) => `Light by ${when}.`,
    caution:
      'A forecast, read by your calendar some time ago. It is never leave to light, and it warns of nothing: before you light, ask what stands now.',
    takenBack: 'Taken back: no go any more.',
    demo: 'Demonstration: invented weather.',
  },
  es: {
    calendar: 'Ventanas favorables',
    go: (site) => `Favorable según pronóstico: ${site}`,
    lightBy: (when) => `Encender a más tardar: ${when}.`,
    caution:
      'Es un pronóstico, leído por su calendario hace algún tiempo. Nunca autoriza a encender y no avisa de nada: antes de encender, pregunte qué rige ahora.',
    takenBack: 'Retirada: ya no es favorable.',
    demo: 'Demostración: tiempo inventado.',
  },
};

export const calendarWords = (language: Language): CalendarWords => WORDS[language];
