// Words on and under the drawings of a day.

import { atMoment, theMoment } from './es-clock.ts';
import type { Language } from './show.ts';

type Side = 'atLeast' | 'atMost';
type Beyond = 'hold' | 'stop';

/** A run of hours; null: from before, or until after what is drawn. */
export interface Between {
  readonly from: string | null;
  readonly until: string | null;
}

/** Numbers with and moments without what a sentence puts around them. */
export interface ChartWords {
  /** Bounds of one side, without their unit; null where there is none. */
  bounds(side: Side, hold: string | null, stop: string | null): string;
  readonly when: Readonly<Record<'day' | 'night', string>>;
  /** Beside a line. */
  readonly bound: Readonly<Record<Beyond, string>>;
  /** The marks of the burn, in a word or two. */
  readonly marks: Readonly<Record<'lightUp' | 'lastCharge' | 'coveredBy', string>>;
  readonly missing: string;
  /** The least room of a limit that is kept: while loading, or in the open time of a day without a burn. */
  room(room: string, at: string, isLoading: boolean): string;
  /** How far beyond it is at the most. */
  beyondBy(room: string, at: string): string;
  /** Hours beyond a bound, in all their runs. */
  beyond(side: Side, verdict: Beyond, runs: readonly Between[]): string;
  missingFrom(runs: readonly Between[], why: string): string;
  readonly derivedMark: string;
  readonly moreBelow: string;
  /** What a lane says, for who cannot see it. */
  told(element: string, unit: string, hours: string): string;
  toldHour(at: string, value: string, beyond: string | null, isDerived: boolean): string;
  readonly beyondWords: Readonly<Record<Side, string>>;
  /** Smoke of a run of hours, from a moment on. */
  smokeFrom(toward: string, from: string): string;
  readonly smokeUnsure: string;
  readonly arrows: string;
  keepOff(place: string, from: string, to: string): string;
}

const en: ChartWords = {
  bounds: (side, hold, stop) => {
    const word = side === 'atMost' ? 'at most' : 'at least';
    if (hold === null) return `${word} ${stop ?? ''} (stop)`;
    return stop === null ? `${word} ${hold}` : `${word} ${hold}, stop ${stop}`;
  },
  when: { day: 'by day', night: 'by night' },
  bound: { hold: 'hold', stop: 'stop' },
  marks: { lightUp: 'light-up', lastCharge: 'last charge', coveredBy: 'covered' },
  missing: 'missing',
  room: (room, at, isLoading) => `Least room${isLoading ? ' while loading' : ''}: ${room} at ${at}.`,
  beyondBy: (room, at) => `Farthest beyond: ${room} at ${at}.`,
  beyond: (side, verdict, spans) =>
    `${side === 'atMost' ? 'Over' : 'Under'} (${verdict}) ${listed(spans.map(spanEn), 'and')}.`,
  missingFrom: (spans, why) => `Missing ${listed(spans.map(spanEn), 'and')}: ${why}.`,
  derivedMark: 'Rings and d: derived.',
  moreBelow: 'More in the table of hours.',
  told: (element, unit, hours) => `${element}${unit === '' ? '' : ` in ${unit}`} by the hour: ${hours}.`,
  toldHour: (at, value, beyond, isDerived) =>
    `${at} ${value}${beyond === null ? '' : ` ${beyond}`}${isDerived ? ' derived' : ''}`,
  beyondWords: { atMost: 'over', atLeast: 'under' },
  smokeFrom: (toward, from) => `${toward} from ${from}`,
  smokeUnsure: 'too light to say',
  arrows: 'Arrows point where the smoke goes; north is up.',
  keepOff: (place, from, to) => `Keep off ${place}: ${from} to ${to}.`,
};

function spanEn({ from, until }: Between): string {
  if (from === null) return until === null ? 'all the time' : `until ${until}`;
  return until === null ? `from ${from}` : `from ${from} until ${until}`;
}

const es: ChartWords = {
  bounds: (side, hold, stop) => {
    const word = side === 'atMost' ? 'máximo' : 'mínimo';
    if (hold === null) return `${word} ${stop ?? ''} (alto)`;
    return stop === null ? `${word} ${hold}` : `${word} ${hold}, alto ${stop}`;
  },
  when: { day: 'de día', night: 'de noche' },
  bound: { hold: 'espere', stop: 'alto' },
  marks: { lightUp: 'encender', lastCharge: 'última carga', coveredBy: 'tapada' },
  missing: 'falta',
  room: (room, at, isLoading) =>
    `Menor margen${isLoading ? ' mientras se carga' : ''}: ${room}, ${atMoment(at)}.`,
  beyondBy: (room, at) => `Lo más lejos: ${room} de más, ${atMoment(at)}.`,
  beyond: (side, verdict, spans) =>
    `Por ${side === 'atMost' ? 'encima' : 'debajo'} (${es.bound[verdict]}) ${listed(spans.map(spanEs), 'y')}.`,
  missingFrom: (spans, why) => `Falta ${listed(spans.map(spanEs), 'y')}: ${why}.`,
  derivedMark: 'Anillos y d: derivado.',
  moreBelow: 'Más en la tabla de horas.',
  told: (element, unit, hours) => `${element}${unit === '' ? '' : ` en ${unit}`} por hora: ${hours}.`,
  toldHour: (at, value, beyond, isDerived) =>
    `${at} ${value}${beyond === null ? '' : ` ${beyond}`}${isDerived ? ' derivado' : ''}`,
  beyondWords: { atMost: 'por encima', atLeast: 'por debajo' },
  smokeFrom: (toward, from) => `${toward} desde ${theMoment(from)}`,
  smokeUnsure: 'muy flojo para saber',
  arrows: 'Las flechas apuntan a donde va el humo; el norte está arriba.',
  keepOff: (place, from, to) => `No hacia ${place}: de ${from} a ${to}.`,
};

function spanEs({ from, until }: Between): string {
  if (from === null) return until === null ? 'todo el tiempo' : `hasta ${theMoment(until)}`;
  const begin = `desde ${theMoment(from)}`;
  return until === null ? begin : `${begin} hasta ${theMoment(until)}`;
}

const listed = (texts: readonly string[], and: string): string =>
  texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} ${and} ${texts.at(-1) ?? ''}`;

const WORDS: Readonly<Record<Language, ChartWords>> = { en, es };

export const chartWords = (language: Language): ChartWords => WORDS[language];
