// Words of the simulated shift, on its page and on the command line.

import type { Language } from './show.ts';

export interface PlayWords {
  readonly title: string;
  readonly intro: string;
  readonly seed: string;
  readonly button: string;
  readonly notYet: string;
  readonly timeline: string;
  readonly measured: string;
  readonly windTurns: string;
  readonly textTo: string;
  readonly says: string;
  readonly taps: Readonly<Record<'lit' | 'charging' | 'covered', string>>;
  readonly roles: Readonly<Record<'crew' | 'office' | 'dispatch', string>>;
  readings(count: number): string;
}

const english: PlayWords = {
  title: 'Play the day',
  intro:
    'A simulated shift at an invented pit, much faster than real time: the crew lights at light-up, an instrument measures every 5 minutes, and at some moment the wind turns. The watch that runs here is the real one; the phones are invented, and no text leaves this machine. Nobody answers the first text.',
  seed: 'Number of the shift, 1 to 9999; the same number plays the same shift',
  button: 'Play the day',
  notYet: 'This shift has not been played yet. It takes some seconds.',
  timeline: 'What happened',
  measured: 'Measured',
  windTurns: 'The wind turns. Nobody knows yet.',
  textTo: 'Text to',
  says: 'answers',
  taps: { lit: 'taps: lit', charging: 'taps: charging', covered: 'taps: covered' },
  roles: { crew: 'crew', office: 'office', dispatch: 'dispatch' },
  readings: (count) => (count === 1 ? '1 reading' : `${count} readings`),
};

const spanish: PlayWords = {
  title: 'Simular el día',
  intro:
    'Un turno simulado en una fosa inventada, mucho más rápido que el tiempo real: la cuadrilla enciende a la hora prevista, un instrumento mide cada 5 minutos y en algún momento el viento gira. La vigilancia que corre aquí es la verdadera; los teléfonos son inventados y ningún mensaje sale de esta máquina. Nadie responde al primer mensaje.',
  seed: 'Número del turno, de 1 a 9999; el mismo número da el mismo turno',
  button: 'Simular el día',
  notYet: 'Este turno todavía no se ha simulado. Tarda unos segundos.',
  timeline: 'Lo que pasó',
  measured: 'Medido',
  windTurns: 'El viento gira. Nadie lo sabe todavía.',
  textTo: 'Mensaje a',
  says: 'responde',
  taps: { lit: 'marca: encendida', charging: 'marca: se carga leña', covered: 'marca: tapada' },
  roles: { crew: 'cuadrilla', office: 'oficina', dispatch: 'despacho' },
  readings: (count) => (count === 1 ? '1 lectura' : `${count} lecturas`),
};

const WORDS: Readonly<Record<Language, PlayWords>> = { en: english, es: spanish };

export const playWords = (language: Language): PlayWords => WORDS[language];
