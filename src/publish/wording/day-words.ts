// Words of the page of a day that are of no finding: what to do, and the text to the crew.

import { atMoment, theMoment } from './es-clock.ts';
import type { Language } from './show.ts';

export interface DayWords {
  readonly whatYouDo: string;
  readonly lightUp: string;
  latest(at: string): string;
  readonly lastCharge: string;
  /** A pause of the burn, that ends at a moment. */
  pauseUntil(at: string): string;
  readonly burnedDown: string;
  readonly covered: string;
  /** On a page whose answer has become void. */
  readonly reload: string;
  readonly textTitle: Readonly<Record<'evening' | 'dawn', string>>;
  /** Before the text itself, or instead of it. */
  textAhead(at: string): string;
  textUnwritten(at: string): string;
  textSent(at: string): string;
  textMissed(at: string): string;
}

const en: DayWords = {
  whatYouDo: 'What you do',
  lightUp: 'Light up.',
  latest: (at) => `At the latest ${at}.`,
  lastCharge: 'Last charge. No wood after it.',
  pauseUntil: (at) => `Pause: no wood until ${at}.`,
  burnedDown: 'Burned down.',
  covered: 'Covered.',
  reload: 'Do not light on this page. Reload it where there is signal, or call the office.',
  textTitle: { evening: 'Evening text to the crew', dawn: 'Dawn text to the crew' },
  textAhead: (at) => `Goes out ${at}. If it went out now:`,
  textUnwritten: (at) => `Goes out ${at}, and is written then.`,
  textSent: (at) => `Went out ${at}:`,
  textMissed: (at) => `Was due ${at}. None went out.`,
};

const es: DayWords = {
  whatYouDo: 'Qué hacer',
  lightUp: 'Encender.',
  latest: (at) => `A más tardar ${atMoment(at)}.`,
  lastCharge: 'Última carga. Después, nada de leña.',
  pauseUntil: (at) => `Pausa: sin leña hasta ${theMoment(at)}.`,
  burnedDown: 'Consumida.',
  covered: 'Tapada.',
  reload: 'No encender según esta página. Vuelva a cargarla donde haya señal, o llame a la oficina.',
  textTitle: { evening: 'Mensaje de la tarde a la cuadrilla', dawn: 'Mensaje del amanecer a la cuadrilla' },
  textAhead: (at) => `Sale ${atMoment(at)}. Si saliera ahora:`,
  textUnwritten: (at) => `Sale ${atMoment(at)}, y se escribe entonces.`,
  textSent: (at) => `Salió ${atMoment(at)}:`,
  textMissed: (at) => `Debía salir ${atMoment(at)}. No salió ninguno.`,
};

const WORDS: Readonly<Record<Language, DayWords>> = { en, es };

export const dayWords = (language: Language): DayWords => WORDS[language];
