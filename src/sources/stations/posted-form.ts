// The form for hand-held meters: what a person types → a posted reading. Spelling is forgiven; a unit that is lacking is not.

import { addDays, clockTimeMs, localDateAt, rfc3339 } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { FieldFault } from './posted-observation.ts';

export interface FormOptions {
  /** Zone of the site: clock times on the form are of it. */
  readonly timeZone: string;
  readonly nowMs: number;
}

/** Fields of a reading; each may be empty. Their names are those of a posted reading. */
export const FORM_FIELDS = [
  'station',
  'time',
  'windSpeed',
  'windDirection',
  'windGust',
  'windHeight',
  'windAveraging',
  'reference',
  'relativeHumidity',
  'temperature',
  'dewPoint',
  'pressure',
] as const;

export type FormField = (typeof FORM_FIELDS)[number];
export type Form = { readonly [field in FormField]?: string } & {
  /** `calm` or `variable` in the place of a direction. */
  readonly blows?: string;
  /** Unit of wind and gust where the number has none. */
  readonly speedUnit?: string;
};

/** The reading to be judged, without what is empty; with faults it is not as meant, and whoever typed it must be asked. */
export function readForm(
  form: Form,
  { timeZone, nowMs }: FormOptions,
): { readonly reading: Readonly<Record<string, unknown>>; readonly faults: readonly FieldFault[] } {
  const reading: Record<string, unknown> = {};
  const faults: FieldFault[] = [];
  for (const field of FORM_FIELDS) {
    const text = typed(form, field);
    if (text === '' && field !== 'time') continue;
    const value = understood(field, text, timeZone, nowMs);
    const message = EXPECTED[field] ?? 'cannot be understood';
    if (value === null) faults.push({ field, why: 'unreadable', message });
    else reading[field] = value;
  }
  if (isBoth(form)) {
    const message = 'is a direction, and calm or variable too';
    faults.push({ field: 'windDirection', why: 'two-directions', message });
  }
  return { reading, faults };
}

/** What stands for a field. */
function typed(form: Form, field: FormField): string {
  const text = (form[field] ?? '').trim();
  if (field === 'windDirection') return isWord(form.blows) ? form.blows : text;
  if (field !== 'windSpeed' && field !== 'windGust') return text;
  return /^[+-]?\d+(?:\.\d+)?$/.test(text) ? `${text} ${form.speedUnit ?? ''}`.trim() : text;
}

const isWord = (blows: string | undefined): blows is string => blows === 'calm' || blows === 'variable';

const isBoth = ({ blows, windDirection = '' }: Form): boolean =>
  isWord(blows) && windDirection.trim() !== '' && directionOf(windDirection) !== blows;

const EXPECTED: { readonly [field in FormField]?: string } = {
  time: 'expected a clock time of today such as 14:05',
  windDirection: 'expected where it blows from: SW, 225, calm or variable',
};

function understood(field: FormField, text: string, timeZone: string, nowMs: number): unknown {
  if (field === 'station') return text;
  if (field === 'reference') return text.toLowerCase();
  if (field === 'time') return timeOf(text, timeZone, nowMs);
  if (field === 'windDirection') return directionOf(text);
  return quantityOf(field, text);
}

/** The last such clock time; empty: now. A time a few minutes ahead is of a clock that is fast, not of yesterday. */
function timeOf(text: string, timeZone: string, nowMs: number): string | null {
  if (text === '') return rfc3339(nowMs, timeZone);
  const match = /^(\d{1,2})[:.](\d{2})$/.exec(text);
  if (!match) return /^\d{4}-/.test(text) ? text : null;
  const [, hour = '', minute = ''] = match;
  if (Number(hour) > 23 || Number(minute) > 59) return null;
  const clock = `${hour.padStart(2, '0')}:${minute}`;
  const today = localDateAt(nowMs, timeZone);
  const times = [today, addDays(today, -1)].flatMap((date) => [
    clockTimeMs(date, clock, timeZone, 'later'),
    clockTimeMs(date, clock, timeZone, 'earlier'),
  ]);
  const last = times.find((ms) => ms <= nowMs + 5 * MINUTE_MS);
  return last === undefined ? null : rfc3339(last, timeZone);
}

/** Clockwise from north; O is the Spanish west. */
const POINTS = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
];
const WORDS: Readonly<Record<string, string>> = {
  NORTH: 'N',
  SOUTH: 'S',
  EAST: 'E',
  WEST: 'W',
  NORTHEAST: 'NE',
  NORTHWEST: 'NW',
  SOUTHEAST: 'SE',
  SOUTHWEST: 'SW',
  NORTE: 'N',
  SUR: 'S',
  ESTE: 'E',
  OESTE: 'W',
  NORESTE: 'NE',
  NOROESTE: 'NW',
  SURESTE: 'SE',
  SUROESTE: 'SW',
  SUDESTE: 'SE',
  SUDOESTE: 'SW',
};

function directionOf(text: string): number | 'calm' | 'variable' | null {
  const word = text.toUpperCase().replace(/[\s.-]/g, '');
  if (word === 'CALM' || word === 'CALMA') return 'calm';
  if (word === 'VARIABLE' || word === 'VRB') return 'variable';
  const degrees = /^(\d{1,3})(?:°|º|DEG|DEGREES)?$/.exec(word);
  if (degrees) return Number(degrees[1]);
  const named = Object.hasOwn(WORDS, word) ? WORDS[word] : word.replaceAll('O', 'W');
  const point = POINTS.indexOf(named ?? '');
  return point < 0 ? null : point * 22.5;
}

/** Spellings → units as they are posted. */
const UNITS: Readonly<Record<string, string>> = {
  mph: 'mph',
  'mi/h': 'mph',
  kt: 'kt',
  kts: 'kt',
  kn: 'kt',
  knot: 'kt',
  knots: 'kt',
  'm/s': 'm/s',
  mps: 'm/s',
  'km/h': 'km/h',
  kmh: 'km/h',
  kph: 'km/h',
  '%': '%',
  percent: '%',
  f: '°F',
  '°f': '°F',
  degf: '°F',
  c: '°C',
  '°c': '°C',
  degc: '°C',
  ft: 'ft',
  feet: 'ft',
  m: 'm',
  s: 's',
  sec: 's',
  min: 'min',
  hpa: 'hPa',
  mb: 'mbar',
  mbar: 'mbar',
  inhg: 'inHg',
};

/** What has no unit is handed on as it is, to be refused with the units that fit; of humidity there is only one. */
function quantityOf(field: FormField, text: string): string {
  const match = /^([+-]?\d+(?:\.\d+)?)\s*(.*)$/.exec(text);
  const [, number = '', written = ''] = match ?? [];
  const spelled = written.toLowerCase().replace(/\s/g, '');
  const unit = Object.hasOwn(UNITS, spelled) ? UNITS[spelled] : undefined;
  if (match && unit !== undefined) return `${number} ${unit}`;
  return match && spelled === '' && field === 'relativeHumidity' ? `${number} %` : text;
}
