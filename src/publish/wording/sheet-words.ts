// Words of the day sheet that the crew has on paper.

import { atMoment, theMoment } from './es-clock.ts';
import type { Language } from './show.ts';

export interface SheetWords {
  readonly title: string;
  readonly link: string;
  readonly pdf: string;
  readonly letter: string;
  readonly a4: string;
  allTimes(zone: string): string;
  made(at: string): string;
  workedOut(at: string): string;
  voidAfter(at: string): string;
  readonly voidNow: string;
  readonly voidOnText: string;
  nextDue(at: string): string;
  /** The sheet ends before the fire begins. */
  readonly voidBeforeLight: string;
  readonly dayByHour: string;
  readonly outOf: string;
  readonly limits: string;
  readonly smoke: string;
  /** No direction, or a wind too light for one. */
  readonly noSmoke: string;
  readonly places: string;
  readonly noPlaces: string;
  place(name: string, from: string, to: string, distance: string): string;
  readonly change: string;
  readonly say: string;
  smokeRuns(runs: string): string;
  smokeRun(toward: string, from: string): string;
  stops(what: string): string;
  readonly stopsAlso: string;
  lastWood(last: string, covered: string): string;
  readonly noFire: string;
  readonly ask: readonly string[];
  readonly where: string;
  position(at: string): string;
  readonly emergency: string;
  readonly road: string;
  readonly write: string;
  readonly columns: readonly [string, string, string, string];
  readonly rows: readonly string[];
  more(count: string): string;
}

const LINE = '____________';

const en: SheetWords = {
  title: 'Day sheet',
  link: 'Day sheet to print',
  pdf: 'Day sheet as PDF',
  letter: 'PDF, Letter',
  a4: 'PDF, A4',
  allTimes: (zone) => `All times ${zone}`,
  made: (at) => `Forecast made ${at}`,
  workedOut: (at) => `Worked out ${at}`,
  voidAfter: (at) => `VOID AFTER ${at}`,
  voidNow: 'VOID: DO NOT USE',
  voidOnText: 'and on any text that says otherwise',
  nextDue: (at) => `next forecast due ${at}`,
  voidBeforeLight: 'It ends before light-up: print it anew before you light.',
  dayByHour: 'The day by the hour',
  outOf:
    'Band: white go, stripes hold, cross-hatched stop, dots dark or off shift. Figures: bold and underlined beyond hold, with a frame beyond stop.',
  limits: 'Limit',
  smoke: 'Smoke goes toward',
  noSmoke: '?',
  places: 'Smoke must not reach',
  noPlaces: 'No protected place is set up for this site.',
  place: (name, from, to, distance) => `${name}: ${from} to ${to}, ${distance} away`,
  change: 'What would change it',
  say: 'Say at the tailgate',
  smokeRuns: (runs) => `Smoke goes ${runs}.`,
  smokeRun: (toward, from) => `${toward} from ${from}`,
  stops: (what) => `What stops us today: ${what}`,
  stopsAlso: 'smoke toward a place that it must not reach, a STOP text, anyone who says stop.',
  lastWood: (last, covered) => `No wood after ${last}. Covered by ${covered}.`,
  noFire: 'No fire on this sheet.',
  ask: [
    `Who watches the smoke: ${LINE}`,
    `Who has the phone: ${LINE}`,
    'Water, machine and soil for the cover are in place',
    `Way out and meeting point: ${LINE}`,
    `Dispatch told at ______ by ${LINE}`,
    `Neighbors told: ${LINE}`,
  ],
  where: 'Where we are',
  position: (at) => `Position for emergency services: ${at} (latitude, longitude)`,
  emergency: 'Emergency 911. Say the position first.',
  road: `Road and gate: ${LINE}${LINE}`,
  write: 'Write down',
  columns: ['What', 'Time', 'Wind, gust, from', 'Initials'],
  rows: [
    'Lit',
    'Check',
    'Check',
    'Check',
    'Last charge',
    'Burned down',
    'Covered',
    'Left site',
    'Looked again',
  ],
  more: (count) => `and ${count} more on the page of the day`,
};

const es: SheetWords = {
  title: 'Hoja del día',
  link: 'Hoja del día para imprimir',
  pdf: 'Hoja del día como PDF',
  letter: 'PDF, Carta',
  a4: 'PDF, A4',
  allTimes: (zone) => `Todas las horas: ${zone}`,
  made: (at) => `Pronóstico hecho ${at}`,
  workedOut: (at) => `Calculado ${at}`,
  voidAfter: (at) => `NO VALE DESPUÉS DE ${at}`,
  voidNow: 'NO VALE: NO USAR',
  voidOnText: 'ni si un mensaje dice otra cosa',
  nextDue: (at) => `próximo pronóstico ${at}`,
  voidBeforeLight: 'Termina antes de encender: imprímala de nuevo antes de encender.',
  dayByHour: 'El día hora por hora',
  outOf:
    'Banda: blanco adelante, rayas espere, cuadrícula alto, puntos oscuro o sin turno. Cifras: negrita y subrayado fuera de espere, con marco fuera de alto.',
  limits: 'Límite',
  smoke: 'El humo va hacia',
  noSmoke: '?',
  places: 'El humo no debe llegar a',
  noPlaces: 'Este sitio no tiene lugares protegidos.',
  place: (name, from, to, distance) => `${name}: de ${from} a ${to}, a ${distance}`,
  change: 'Qué lo cambiaría',
  say: 'Decir antes de empezar',
  smokeRuns: (runs) => `El humo va ${runs}.`,
  smokeRun: (toward, from) => `${toward} desde ${theMoment(from)}`,
  stops: (what) => `Qué nos detiene hoy: ${what}`,
  stopsAlso: 'humo hacia un lugar al que no debe llegar, un mensaje de ALTO, cualquiera que diga alto.',
  lastWood: (last, covered) => `Nada de leña después de ${theMoment(last)}. Tapada ${atMoment(covered)}.`,
  noFire: 'Con esta hoja no se enciende.',
  ask: [
    `Quién vigila el humo: ${LINE}`,
    `Quién tiene el teléfono: ${LINE}`,
    'Agua, máquina y tierra para tapar están listas',
    `Salida y punto de reunión: ${LINE}`,
    `Central avisada a las ______ por ${LINE}`,
    `Vecinos avisados: ${LINE}`,
  ],
  where: 'Dónde estamos',
  position: (at) => `Posición para emergencias: ${at} (latitud, longitud)`,
  emergency: 'Emergencias 911. Diga primero la posición.',
  road: `Camino y puerta: ${LINE}${LINE}`,
  write: 'Anotar',
  columns: ['Qué', 'Hora', 'Viento, ráfaga, de', 'Iniciales'],
  rows: [
    'Encendida',
    'Control',
    'Control',
    'Control',
    'Última carga',
    'Consumida',
    'Tapada',
    'Salida',
    'Revisada',
  ],
  more: (count) => `y ${count} más en la página del día`,
};

const WORDS: Readonly<Record<Language, SheetWords>> = { en, es };

export const sheetWords = (language: Language): SheetWords => WORDS[language];
