// Words of the glance: the page for whoever sits in the cab beside the fire.

import { atMoment, theMoment } from './es-clock.ts';
import type { Language } from './show.ts';

type TapKind = 'lit' | 'charging' | 'burning-down' | 'covered' | 'put-out-early';

export interface GlanceWords {
  readonly title: string;
  /** Link from the page of the day. */
  readonly toGlance: string;
  readonly toDay: string;
  readonly doThis: string;
  readonly changed: string;
  readonly unchanged: string;
  readonly next: string;
  readonly nothingNext: string;
  readonly seen: string;
  /** Before who answered. */
  readonly seenBy: string;
  readonly tapNow: string;
  readonly tapOther: string;
  readonly nameLabel: string;
  /** Where a key has a name: what counts if the field stays empty. */
  nameHint(key: string): string;
  readonly taps: Readonly<Record<TapKind, string>>;
  readonly anotherPit: string;
  /** `nth`: of those lit in the same minute; else null. */
  burnOf(since: string, nth: number | null): string;
  undo(tap: string, at: string): string;
  moved(tap: string): string;
  readonly moveTime: string;
  readonly moveButton: string;
  readonly burning: Readonly<Record<'charge' | 'hold' | 'burning-down' | 'put-out-early', string>>;
  readonly moments: Readonly<Record<'lightUp' | 'lastCharge' | 'coveredBy', string>>;
  /** With "{}" for a length of time. */
  readonly inTime: string;
  readonly wasAgo: string;
  readonly old: string;
  readonly forecast: string;
  readonly noForecast: string;
  readonly station: string;
  readonly noStation: string;
  /** Before the moment at which the server wrote the page. */
  readonly written: string;
  at(moment: string): string;
  readonly mayNotTap: string;
}

const ORDINALS = ['1st', '2nd', '3rd'];

const en: GlanceWords = {
  title: 'now',
  toGlance: 'The word for now, and the taps',
  toDay: 'The whole day',
  doThis: 'Do this:',
  changed: 'Changed',
  unchanged: 'Nothing that was told stands.',
  next: 'Next:',
  nothingNext: 'nothing more today.',
  seen: 'I have seen this',
  seenBy: 'Seen by',
  tapNow: 'Tap what you do now',
  tapOther: 'Other taps, and putting right',
  nameLabel: 'Who taps',
  nameHint: (key) => `Empty: ${key}.`,
  taps: {
    lit: 'Lit',
    charging: 'Charging',
    'burning-down': 'Burning down',
    covered: 'Covered',
    'put-out-early': 'Put out early',
  },
  anotherPit: 'Another pit lit',
  burnOf: (since, nth) => `Pit lit ${since}${nth === null ? '' : ` (${ORDINALS[nth - 1] ?? `${nth}th`})`}`,
  undo: (tap, at) => `Not so: take back "${tap}" of ${at}`,
  moved: (tap) => `"${tap}" was at`,
  moveTime: 'Clock time at the site',
  moveButton: 'Put the time right',
  burning: {
    charge: 'May add wood.',
    hold: 'Add no wood. Keep the curtain up, stay with the pit.',
    'burning-down': 'Add no wood. Keep the curtain up until it has burned down, then cover with soil.',
    'put-out-early': 'Cover with soil, and tap it.',
  },
  moments: { lightUp: 'light-up', lastCharge: 'last charge', coveredBy: 'covered by' },
  inTime: 'in {}',
  wasAgo: '{} ago',
  old: '{} old',
  forecast: 'Forecast made',
  noForecast: 'No forecast at hand.',
  station: 'Station',
  noStation: 'No reading of a station.',
  written: 'This page was written',
  at: (moment) => `at ${moment}`,
  mayNotTap: 'This key may read, and not tap.',
};

const es: GlanceWords = {
  title: 'ahora',
  toGlance: 'La palabra de ahora, y los toques',
  toDay: 'Todo el día',
  doThis: 'Haga esto:',
  changed: 'Cambió',
  unchanged: 'No hay avisos pendientes.',
  next: 'Después:',
  nothingNext: 'nada más hoy.',
  seen: 'Ya lo vi',
  seenBy: 'Lo vio',
  tapNow: 'Toque lo que hace ahora',
  tapOther: 'Otros toques, y corregir',
  nameLabel: 'Quién toca',
  nameHint: (key) => `Vacío: ${key}.`,
  taps: {
    lit: 'Encendida',
    charging: 'Se carga leña',
    'burning-down': 'Se consume',
    covered: 'Tapada',
    'put-out-early': 'Apagada antes de tiempo',
  },
  anotherPit: 'Otra fosa encendida',
  burnOf: (since, nth) => `Fosa encendida ${atMoment(since)}${nth === null ? '' : ` (${nth}a)`}`,
  undo: (tap, at) => `No fue así: quitar "${tap}" de ${theMoment(at)}`,
  moved: (tap) => `"${tap}" fue a las`,
  moveTime: 'Hora del sitio',
  moveButton: 'Corregir la hora',
  burning: {
    charge: 'Puede echar leña.',
    hold: 'No echar leña. Mantener la cortina, no dejar la fosa.',
    'burning-down': 'No echar leña. Mantener la cortina hasta que se consuma; luego tapar con tierra.',
    'put-out-early': 'Tapar con tierra, y tocarlo aquí.',
  },
  moments: { lightUp: 'encender', lastCharge: 'última carga', coveredBy: 'tapada a más tardar' },
  inTime: 'en {}',
  wasAgo: 'hace {}',
  old: 'hace {}',
  forecast: 'Pronóstico hecho',
  noForecast: 'No hay pronóstico a mano.',
  station: 'Estación',
  noStation: 'Ninguna lectura de estación.',
  written: 'Esta página se escribió',
  at: (moment) => atMoment(moment),
  mayNotTap: 'Esta clave puede leer, no tocar.',
};

const WORDS: Readonly<Record<Language, GlanceWords>> = { en, es };

export const glanceWords = (language: Language): GlanceWords => WORDS[language];
