// Words of the form for hand-held meters.

import type { Language } from './show.ts';

/** What may be wrong with a field. */
export type ReadingWhy =
  | 'unreadable'
  | 'not-known'
  | 'no-station'
  | 'future'
  | 'too-old'
  | 'absurd'
  | 'calm-at-a-speed'
  | 'no-degrees'
  | 'two-directions'
  | 'no-declination'
  | 'no-mount'
  | 'weaker-than-wind'
  | 'dew-point-above'
  | 'nothing-told';

type Said = Readonly<Record<Exclude<ReadingWhy, 'unreadable'>, string>>;

export interface ReadingFormWords {
  readonly title: string;
  readonly station: string;
  readonly time: string;
  readonly timeHint: string;
  readonly wind: string;
  readonly gust: string;
  readonly unit: string;
  readonly from: string;
  readonly fromHint: string;
  readonly blowsFrom: string;
  readonly calm: string;
  readonly variable: string;
  readonly reference: string;
  readonly trueNorth: string;
  readonly magnetic: string;
  readonly asConfigured: string;
  readonly humidity: string;
  readonly button: string;
  readonly kept: string;
  readonly notKept: string;
  /** Where no meter of the site is read by hand. */
  readonly noMeter: string;
  readonly faults: Said;
  /** By the name of the field. */
  readonly unreadable: Readonly<Record<string, string>>;
  readonly unreadableElse: string;
}

const english: ReadingFormWords = {
  title: 'Enter a reading',
  station: 'Meter',
  time: 'Measured at',
  timeHint: 'Empty: now.',
  wind: 'Wind',
  gust: 'Gust',
  unit: 'Unit',
  from: 'The wind blows from',
  fromHint: 'Letters or degrees: SW or 225.',
  blowsFrom: 'Direction',
  calm: 'Calm',
  variable: 'Variable: from no one direction',
  reference: 'Direction by',
  trueNorth: 'true north',
  magnetic: 'the compass (magnetic)',
  asConfigured: 'as set for the meter',
  humidity: 'Humidity, %',
  button: 'Keep the reading',
  kept: 'The reading is kept.',
  notKept: 'Nothing was kept. Put right what is marked, and send it again.',
  noMeter: 'No meter that is read by hand is set up for this site. The office can add one.',
  faults: {
    'not-known': 'This is not known here.',
    'no-station': 'Choose a meter of this site.',
    future: 'This lies in the future.',
    'too-old': 'This is too long ago to count.',
    absurd: 'This is beyond what can be.',
    'calm-at-a-speed': 'Calm, and yet a wind speed: which of them is it?',
    'no-degrees': 'Degrees go from 0 to 360.',
    'two-directions': 'A direction, and calm or variable as well: which of them is it?',
    'no-declination':
      'The office has not set how far magnetic north lies off here. Turn it to true north, or give letters by the map.',
    'no-mount': 'The office has not set how the instrument is mounted.',
    'weaker-than-wind': 'A gust is never weaker than the wind.',
    'dew-point-above': 'A dew point is never above the temperature.',
    'nothing-told': 'Nothing was entered that was measured.',
  },
  unreadable: {
    time: 'Give a clock time such as 14:05.',
    windSpeed: 'Give a number such as 8 or 8.5.',
    windGust: 'Give a number such as 14 or 14.5.',
    windDirection: 'Give where it blows from: SW or 225.',
    relativeHumidity: 'Give a number from 1 to 100.',
  },
  unreadableElse: 'This cannot be read.',
};

const spanish: ReadingFormWords = {
  title: 'Anotar una lectura',
  station: 'Medidor',
  time: 'Medido a las',
  timeHint: 'Vacío: ahora.',
  wind: 'Viento',
  gust: 'Ráfaga',
  unit: 'Unidad',
  from: 'El viento viene del',
  fromHint: 'Letras o grados: SO o 225.',
  blowsFrom: 'Dirección',
  calm: 'Calma',
  variable: 'Variable: de ninguna dirección fija',
  reference: 'Dirección según',
  trueNorth: 'el norte verdadero',
  magnetic: 'la brújula (magnético)',
  asConfigured: 'como está puesto el medidor',
  humidity: 'Humedad, %',
  button: 'Guardar la lectura',
  kept: 'La lectura quedó guardada.',
  notKept: 'No se guardó nada. Corrija lo marcado y envíe otra vez.',
  noMeter: 'Este sitio no tiene un medidor de mano. La oficina puede agregarlo.',
  faults: {
    'not-known': 'Esto no se conoce aquí.',
    'no-station': 'Elija un medidor de este sitio.',
    future: 'Está en el futuro.',
    'too-old': 'Es demasiado antigua para contar.',
    absurd: 'Está fuera de lo posible.',
    'calm-at-a-speed': 'Calma, y a la vez una velocidad de viento: ¿cuál de las dos es?',
    'no-degrees': 'Los grados van de 0 a 360.',
    'two-directions': 'Una dirección, y también calma o variable: ¿cuál es?',
    'no-declination':
      'La oficina no ha puesto cuánto se aparta aquí el norte magnético. Pase al norte verdadero, o dé letras según el mapa.',
    'no-mount': 'La oficina no ha puesto cómo está montado el instrumento.',
    'weaker-than-wind': 'Una ráfaga nunca es más débil que el viento.',
    'dew-point-above': 'El punto de rocío nunca supera la temperatura.',
    'nothing-told': 'No se anotó nada medido.',
  },
  unreadable: {
    time: 'Dé una hora como 14:05.',
    windSpeed: 'Dé un número como 8 o 8.5.',
    windGust: 'Dé un número como 14 o 14.5.',
    windDirection: 'Dé de dónde viene: SO o 225.',
    relativeHumidity: 'Dé un número de 1 a 100.',
  },
  unreadableElse: 'No se entiende.',
};

const WORDS: Readonly<Record<Language, ReadingFormWords>> = { en: english, es: spanish };

export const readingFormWords = (language: Language): ReadingFormWords => WORDS[language];
