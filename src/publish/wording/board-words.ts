// Words of the dispatch board.

import { atMoment } from './es-clock.ts';
import type { Language } from './show.ts';

/** Why a question about a smoke cannot be answered. */
export type AskedWhy = 'no-place' | 'unreadable' | 'several' | 'time' | 'ahead';

export interface BoardWords {
  readonly title: string;
  /** What the page is about, in numbers. */
  count(burning: number, go: number): string;
  /** `at` with seconds and zone. */
  written(at: string): string;
  /** Shown by the style sheet as the page grows old on the screen, in this order. */
  readonly aging: readonly [string, string, string];
  readonly refresh: string;
  readonly refreshBy: string;
  readonly refreshing: string;
  readonly refreshOff: string;
  readonly burnsNow: string;
  readonly nothingBurns: string;
  /** Of a burn whose site is not in force. */
  readonly unplaced: string;
  readonly mayBurn: string;
  readonly mayBurnNote: string;
  readonly noneMayBurn: string;
  readonly notYet: string;
  readonly lit: string;
  readonly incident: string;
  readonly lastTap: string;
  /** What was tapped, when, by whom, over what. */
  tapped(state: string, at: string, by: string): string;
  readonly noTap: string;
  byPlan(at: string): string;
  overdue(at: string): string;
  readonly noCover: string;
  readonly smoke: string;
  readonly permit: string;
  readonly phone: string;
  readonly where: string;
  readonly notTold: string;
  /** A go window that is still ahead, or lasts. */
  between(from: string, to: string): string;
  readonly windows: string;
  readonly pin: string;
  readonly question: string;
  readonly questionNote: string;
  readonly at: string;
  readonly atHint: string;
  readonly choice: string;
  readonly noChoice: string;
  readonly when: string;
  readonly whenHint: string;
  readonly ask: string;
  readonly faults: Readonly<Record<AskedWhy, string>>;
  answer(place: string, at: string): string;
  readonly covers: string;
  readonly cannotExclude: string;
  readonly outside: string;
  readonly noBurn: string;
  beyond(count: number, reach: string): string;
  farFromAll(distance: string): string;
  readonly middleOf: string;
  more(count: number): string;
  readonly askedAgain: string;
  readonly pages: string;
  /** North, south, east, west. */
  readonly letters: readonly [string, string, string, string];
  readonly datum: string;
  readonly fromTaps: string;
}

const en: BoardWords = {
  title: 'Dispatch board',
  count: (burning, go) =>
    `${burning} ${burning === 1 ? 'pit burns' : 'pits burn'} now, ${go} more ${go === 1 ? 'has a go window' : 'have go windows'} left today`,
  written: (at) => `Written ${at}, by the clock of the server. It tells what was known then.`,
  aging: [
    'More than a minute old by now.',
    'More than five minutes old by now: refresh it.',
    'More than half an hour old: do not go by it.',
  ],
  refresh: 'Refresh',
  refreshBy: 'Refresh by itself every 60 seconds',
  refreshing: 'This page loads anew every 60 seconds; a screen reader then begins from the top.',
  refreshOff: 'Stop that',
  burnsNow: 'Burning now',
  nothingBurns: 'No pit burns.',
  unplaced:
    'Its site is not in force here any more: nobody watches this pit, and where it lies is not known here. Call its crew.',
  mayBurn: 'Go windows left today',
  mayBurnNote: 'By the plans. Whether it may light at this moment, the word beside each site says.',
  noneMayBurn: 'No other site has a go window left today.',
  notYet: 'Sites without a forecast are not in this list.',
  lit: 'Lit',
  incident: 'Incident',
  lastTap: 'Last tap',
  tapped: (state, at, by) => `${state}, ${at}, by ${by}`,
  noTap: 'none that counts',
  byPlan: (at) => `${at}, by the plan`,
  overdue: (at) => `was due ${at}, by the plan`,
  noCover: 'no plan says',
  smoke: 'Smoke goes',
  permit: 'Permit',
  phone: 'Phone',
  where: 'Where',
  notTold: 'not told',
  between: (from, to) => `${from} to ${to}`,
  windows: 'Go by the plan',
  pin: 'Pin',
  question: 'Which burn is this smoke?',
  questionNote:
    'By place and time: burns that were open then, and where their smoke went. What is missing excludes no burn.',
  at: 'Where it is seen',
  atHint:
    'latitude, longitude (38.97, -92.33), degrees and minutes (38 58.2 N 92 19.8 W), or the name of a site or place below',
  choice: 'Or one of these places',
  noChoice: 'none',
  when: 'When',
  whenHint: 'clock of the nearest site; left empty: now',
  ask: 'Which burn is it?',
  faults: {
    'no-place': 'Say where it is seen.',
    unreadable: 'That is no position, and no name of a site or a place.',
    several: 'Several places have that name: choose one of the list.',
    time: 'That is no date and time.',
    ahead: 'That moment has not been yet.',
  },
  answer: (place, at) => `Smoke at ${place}, ${at}`,
  covers: 'Its smoke went there',
  cannotExclude: 'Cannot be excluded',
  outside: 'Near, but its smoke went elsewhere',
  noBurn: 'No burn of these sites was open then within reach.',
  beyond: (count, reach) =>
    `${count} open ${count === 1 ? 'burn lies' : 'burns lie'} farther than ${reach} away.`,
  farFromAll: (distance) => `The nearest site is ${distance} away: is west written with a minus or a W?`,
  middleOf: 'middle of its sector, seen from the pit',
  more: (count) => `And ${count} more.`,
  askedAgain: 'Clear the question',
  pages: 'Pages of the board',
  letters: ['N', 'S', 'E', 'W'],
  datum: 'WGS 84',
  fromTaps:
    'Lit and covered are the crew’s own taps, with the time at which they tapped. Each site is on its own clock.',
};

const es: BoardWords = {
  title: 'Tablero de despacho',
  count: (burning, go) =>
    `${burning === 1 ? 'Arde 1 fosa' : `Arden ${burning} fosas`} ahora, ${go === 1 ? 'a 1 más le queda' : `a ${go} más les queda`} hoy una ventana buena`,
  written: (at) => `Escrito ${at}, según el reloj del servidor. Dice lo que se sabía entonces.`,
  aging: [
    'Ya tiene más de un minuto.',
    'Ya tiene más de cinco minutos: actualícelo.',
    'Tiene más de media hora: no se guíe por él.',
  ],
  refresh: 'Actualizar',
  refreshBy: 'Actualizar solo cada 60 segundos',
  refreshing:
    'Esta página se carga de nuevo cada 60 segundos; un lector de pantalla vuelve a empezar desde arriba.',
  refreshOff: 'Detener',
  burnsNow: 'Arden ahora',
  nothingBurns: 'No arde ninguna fosa.',
  unplaced:
    'Su sitio ya no está vigente aquí: nadie vigila esta fosa, y aquí no se sabe dónde queda. Llame a su cuadrilla.',
  mayBurn: 'Ventanas buenas que quedan hoy',
  mayBurnNote: 'Según los planes. Si puede encender en este momento, lo dice la palabra junto a cada sitio.',
  noneMayBurn: 'A ningún otro sitio le queda hoy una ventana buena.',
  notYet: 'Los sitios sin pronóstico no están en esta lista.',
  lit: 'Encendida',
  incident: 'Incidente',
  lastTap: 'Último toque',
  tapped: (state, at, by) => `${state}, ${at}, por ${by}`,
  noTap: 'ninguno que cuente',
  byPlan: (at) => `${at}, según el plan`,
  overdue: (at) => `debía estarlo ${atMoment(at)}, según el plan`,
  noCover: 'ningún plan lo dice',
  smoke: 'El humo va',
  permit: 'Permiso',
  phone: 'Teléfono',
  where: 'Dónde',
  notTold: 'no se ha dicho',
  between: (from, to) => `${from} a ${to}`,
  windows: 'Bueno según el plan',
  pin: 'Marca',
  question: '¿De qué quema es este humo?',
  questionNote:
    'Por lugar y hora: quemas abiertas entonces y adónde iba su humo. Lo que falta no descarta ninguna quema.',
  at: 'Dónde se ve',
  atHint:
    'latitud, longitud (38.97, -92.33), grados y minutos (38 58.2 N 92 19.8 O), o el nombre de un sitio o lugar de abajo',
  choice: 'O uno de estos lugares',
  noChoice: 'ninguno',
  when: 'Cuándo',
  whenHint: 'reloj del sitio más cercano; vacío: ahora',
  ask: '¿De qué quema es?',
  faults: {
    'no-place': 'Diga dónde se ve.',
    unreadable: 'Eso no es una posición, ni el nombre de un sitio o lugar.',
    several: 'Varios lugares tienen ese nombre: elija uno de la lista.',
    time: 'Eso no es una fecha y hora.',
    ahead: 'Ese momento todavía no ha llegado.',
  },
  answer: (place, at) => `Humo en ${place}, ${at}`,
  covers: 'Su humo iba hacia allí',
  cannotExclude: 'No se pueden descartar',
  outside: 'Cerca, pero su humo iba a otro lado',
  noBurn: 'Ninguna quema de estos sitios estaba abierta entonces al alcance.',
  beyond: (count, reach) =>
    `${count} ${count === 1 ? 'quema abierta queda' : 'quemas abiertas quedan'} a más de ${reach}.`,
  farFromAll: (distance) =>
    `El sitio más cercano queda a ${distance}: ¿lleva el oeste un signo menos o una O?`,
  middleOf: 'centro de su sector, visto desde la fosa',
  more: (count) => `Y ${count} más.`,
  askedAgain: 'Borrar la pregunta',
  pages: 'Páginas del tablero',
  letters: ['N', 'S', 'E', 'O'],
  datum: 'WGS 84',
  fromTaps:
    'Encendida y tapada son toques de la propia cuadrilla, con la hora del toque. Cada sitio va con su propio reloj.',
};

const WORDS: Readonly<Record<Language, BoardWords>> = { en, es };

export const boardWords = (language: Language): BoardWords => WORDS[language];
