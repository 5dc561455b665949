// Words for what stands at a burning pit.

import type { Language } from './show.ts';

type State = 'lit' | 'charging' | 'burning-down' | 'covered' | 'put-out-early';

export interface LiveWords {
  readonly title: string;
  readonly states: Readonly<Record<State, string>>;
  readonly since: string;
  readonly toldOf: string;
  readonly nothingTold: string;
  readonly answeredBy: string;
  readonly notAnswered: string;
  readonly lastReading: string;
  readonly noReading: string;
  readonly play: string;
  readonly silenced: string;
  /** Before the moment until which. */
  readonly noTexts: string;
  readonly notAllTexts: string;
  /** Before who did it. */
  readonly silencedBy: string;
}

const WORDS: Readonly<Record<Language, LiveWords>> = {
  en: {
    title: 'At the pit now',
    states: {
      lit: 'Lit',
      charging: 'Charging',
      'burning-down': 'Burning down',
      covered: 'Covered',
      'put-out-early': 'Put out early, not covered yet',
    },
    since: 'since',
    toldOf: 'Told, and not over:',
    nothingTold: 'Nothing stands that the crew was told of.',
    answeredBy: 'Answered by',
    notAnswered: 'Nobody has answered.',
    lastReading: 'Last reading',
    noReading: 'No reading yet.',
    play: 'Play the day: a simulated shift on which the wind turns',
    silenced: 'Texts silenced',
    noTexts: 'No texts go out until',
    notAllTexts: 'Some texts do not go out until',
    silencedBy: 'silenced by',
  },
  es: {
    title: 'En la fosa ahora',
    states: {
      lit: 'Encendida',
      charging: 'Se carga leña',
      'burning-down': 'Se consume',
      covered: 'Tapada',
      'put-out-early': 'Apagada antes de tiempo, sin tapar todavía',
    },
    since: 'desde las',
    toldOf: 'Avisado y sin terminar:',
    nothingTold: 'No hay avisos pendientes a la cuadrilla.',
    answeredBy: 'Respondió',
    notAnswered: 'Nadie ha respondido.',
    lastReading: 'Última lectura',
    noReading: 'Ninguna lectura todavía.',
    play: 'Simular el día: un turno simulado en el que el viento gira',
    silenced: 'Textos en silencio',
    noTexts: 'No salen textos hasta',
    notAllTexts: 'Algunos textos no salen hasta',
    silencedBy: 'silenciados por',
  },
};

export const liveWords = (language: Language): LiveWords => WORDS[language];
