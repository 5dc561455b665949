// Words for where smoke goes, and for which burn it may come from.

import type { Language } from './show.ts';

export interface SmokeWords {
  /** `toward` is a bearing; `beside` in degrees on either side. */
  toward(toward: string, besideDeg: number): string;
  readonly calm: string;
  readonly variable: string;
  /** Null where not even the speed is known. */
  light(speed: string | null): string;
  readonly stale: string;
  readonly missing: string;
  observed(station: string, at: string): string;
  forecast(at: string, madeAt: string): string;
  /** The place as seen from the pit. */
  lies(bearing: string, distance: string): string;
  besideMiddle(deg: number): string;
  atThePit(distance: string): string;
  thisWay(smoke: string): string;
  cannotExclude(smoke: string): string;
  covered(at: string): string;
  elsewhere(smoke: string): string;
  /** Of the last hour, to a place that is farther off than that. */
  earlierWind(smoke: string): string;
  readonly noPlace: string;
}

const en: SmokeWords = {
  toward: (toward, deg) => `toward ${toward}, ${deg}° on either side`,
  calm: 'calm, no direction',
  variable: 'variable wind, no direction',
  light: (speed) =>
    `${speed === null ? 'too little wind' : `wind of ${speed}, too light`} to say where smoke goes`,
  stale: 'the forecast is too old to say',
  missing: 'nobody can say',
  observed: (station, at) => `read by ${station} at ${at}`,
  forecast: (at, madeAt) => `forecast for ${at}, made ${madeAt}`,
  lies: (bearing, distance) => `The place lies ${bearing} of the pit, ${distance} away`,
  besideMiddle: (deg) => `${deg}° beside the middle of its smoke`,
  atThePit: (distance) => `The place is at the pit itself (${distance}).`,
  thisWay: (smoke) => `Its smoke went this way: ${smoke}.`,
  cannotExclude: (smoke) => `Where its smoke went: ${smoke}.`,
  covered: (at) => `The pit was covered at ${at}; it may smoke on for a while.`,
  elsewhere: (smoke) => `Its smoke went elsewhere: ${smoke}.`,
  earlierWind: (smoke) =>
    `In the last hour its smoke went elsewhere: ${smoke}. So far away there may be smoke of earlier winds.`,
  noPlace: 'Its site is not in force here any more: nobody can say where it lies.',
};

const es: SmokeWords = {
  toward: (toward, deg) => `hacia ${toward}, ${deg}° a cada lado`,
  calm: 'calma, sin dirección',
  variable: 'viento variable, sin dirección',
  light: (speed) =>
    `${speed === null ? 'muy poco viento' : `viento de ${speed}, muy flojo`} para saber adónde va el humo`,
  stale: 'el pronóstico es demasiado viejo para saberlo',
  missing: 'nadie lo sabe',
  observed: (station, at) => `leído por ${station}, ${at}`,
  forecast: (at, madeAt) => `pronóstico para ${at}, hecho ${madeAt}`,
  lies: (bearing, distance) => `El lugar queda al ${bearing} de la fosa, a ${distance}`,
  besideMiddle: (deg) => `a ${deg}° del centro de su humo`,
  atThePit: (distance) => `El lugar está en la fosa misma (${distance}).`,
  thisWay: (smoke) => `Su humo iba hacia allí: ${smoke}.`,
  cannotExclude: (smoke) => `Adónde iba su humo: ${smoke}.`,
  covered: (at) => `La fosa se tapó: ${at}; puede seguir humeando un rato.`,
  elsewhere: (smoke) => `Su humo iba a otro lado: ${smoke}.`,
  earlierWind: (smoke) =>
    `En la última hora su humo iba a otro lado: ${smoke}. A esa distancia puede haber humo de vientos anteriores.`,
  noPlace: 'Su sitio ya no está vigente aquí: nadie puede decir dónde queda.',
};

const WORDS: Readonly<Record<Language, SmokeWords>> = { en, es };

export const smokeWords = (language: Language): SmokeWords => WORDS[language];
