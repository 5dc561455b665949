// Numbers, units, times and directions as people read them. Core values in, text out.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { compassPoint, wrapDeg } from '#core/units/direction.ts';
import { clockPartsAt, type LocalDate } from '#core/units/local-time.ts';
import { type Dimension, differenceInUnit, inUnit } from '#core/units/quantity.ts';

export type UnitSystem = 'us' | 'si';
export type Language = 'en' | 'es';

const UNIT: Readonly<Record<Dimension, Readonly<Record<UnitSystem, string>>>> = {
  speed: { us: 'mph', si: 'm/s' },
  length: { us: 'ft', si: 'm' },
  precipitation: { us: 'in', si: 'mm' },
  temperature: { us: '°F', si: '°C' },
  percent: { us: '%', si: '%' },
  angle: { us: 'deg', si: 'deg' },
  ventilation: { us: 'kt-ft', si: 'm²/s' },
  pressure: { us: 'hPa', si: 'hPa' },
  duration: { us: 'min', si: 'min' },
  plain: { us: '1', si: '1' },
};

/** Decimals that answers keep, by unit: finer than any limit is written. */
const DECIMALS: Readonly<Record<string, number>> = { ft: 1, m: 1, 'kt-ft': 0, 'm²/s': 1, deg: 0, in: 3 };

export const unitFor = (element: Element, system: UnitSystem): string =>
  UNIT[ELEMENTS[element].dimension][system];

export const roundTo = (value: number, decimals: number): number => {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale + 0;
};

/** A core value in the unit of the chosen system, rounded for answers. */
export const valueIn = (element: Element, core: number, system: UnitSystem): number =>
  roundTo(inUnit(core, unitFor(element, system)), DECIMALS[unitFor(element, system)] ?? 2);

/** A difference of core values, likewise. */
export const differenceIn = (element: Element, core: number, system: UnitSystem): number =>
  roundTo(differenceInUnit(core, unitFor(element, system)), DECIMALS[unitFor(element, system)] ?? 2);

const FORMATS = new Map<string, Intl.NumberFormat>();

export function numberText(value: number, decimals: number, language: Language): string {
  const key = `${language}${decimals}`;
  let format = FORMATS.get(key);
  if (!format) {
    format = new Intl.NumberFormat(language === 'es' ? 'es-US' : 'en-US', {
      maximumFractionDigits: decimals,
    });
    FORMATS.set(key, format);
  }
  return format.format(value);
}

/** Value with unit, as few decimals as tell it apart from `besides` (its bound). */
export function amountText(
  element: Element,
  core: number,
  system: UnitSystem,
  language: Language,
  besides?: number,
): string {
  const unit = unitFor(element, system);
  const value = inUnit(core, unit);
  return withUnit(shortest(value, besides === undefined ? undefined : inUnit(besides, unit), language), unit);
}

const POINTS_WORD: Readonly<Record<Language, string>> = { en: 'points', es: 'puntos' };

/** A difference with unit, at least one significant digit. */
export function differenceText(
  element: Element,
  core: number,
  system: UnitSystem,
  language: Language,
): string {
  const unit = unitFor(element, system);
  return gapText(differenceInUnit(core, unit), unit, language);
}

/** The same for a difference that is in `unit` already. */
export function gapText(difference: number, unit: string, language: Language): string {
  const value = Math.abs(difference);
  const decimals = value >= 1 ? 1 : 2;
  // Twelve percent more of 68 % would be 76 %; a difference of percentages is told in points.
  const shownUnit = unit === '%' ? POINTS_WORD[language] : unit;
  return withUnit(numberText(value, value >= 10 ? 0 : decimals, language), shownUnit);
}

function shortest(value: number, besides: number | undefined, language: Language): string {
  const start = Math.abs(value) >= 100 || Number.isInteger(roundTo(value, 6)) ? 0 : 1;
  if (besides === undefined || Math.abs(value - besides) < 1e-6 * Math.max(1, Math.abs(besides))) {
    // A bound of 0.05 must not read 0.1.
    const small = Math.abs(value) < 1 ? 3 : start;
    return numberText(value, besides === undefined ? small : Math.max(1, small), language);
  }
  for (let decimals = start; decimals < 4; decimals += 1) {
    const shown = roundTo(value, decimals);
    if (Math.sign(shown - besides) === Math.sign(value - besides))
      return numberText(value, decimals, language);
  }
  return numberText(value, 4, language);
}

const withUnit = (text: string, unit: string): string => (unit === '1' ? text : `${text} ${unit}`);

/** Distance in feet or miles, metres or kilometres. */
export function distanceText(m: number, system: UnitSystem, language: Language): string {
  const [small, large] = system === 'us' ? (['ft', 'mi'] as const) : (['m', 'km'] as const);
  const unit = m < (system === 'us' ? 400 : 1000) ? small : large;
  return `${numberText(inUnit(m, unit), unit === small ? 0 : 1, language)} ${unit}`;
}

/** Length of time: "45 min", "2 h", "1 h 30 min". */
export function durationText(min: number): string {
  const whole = Math.round(min);
  const hours = Math.floor(whole / 60);
  if (hours === 0) return `${whole} min`;
  return whole % 60 === 0 ? `${hours} h` : `${hours} h ${whole % 60} min`;
}

/** Clock time at the site: "9:00 am". */
export function clockText(ms: number, timeZone: string): string {
  const { hour, minute } = clockPartsAt(ms, timeZone);
  return clockOf(hour, minute);
}

export const clockOf = (hour: number, minute: number): string =>
  `${hour % 12 === 0 ? 12 : hour % 12}:${String(minute).padStart(2, '0')} ${hour < 12 ? 'am' : 'pm'}`;

/** "HH:MM" as written in a configuration → "3:00 pm". */
export function clockTextOf(clock: string): string {
  const [hour = '0', minute = '0'] = clock.split(':');
  return clockOf(Number(hour), Number(minute));
}

const DATE_FORMATS = new Map<Language, Intl.DateTimeFormat>();

/** "Wed, Nov 25" of a local date. */
export function dateText(date: LocalDate, language: Language): string {
  let format = DATE_FORMATS.get(language);
  if (!format) {
    const locale = language === 'es' ? 'es-US' : 'en-US';
    format = new Intl.DateTimeFormat(locale, {
      weekday: 'short',
      month: 'short',
      day: 'numeric',
      timeZone: 'UTC',
    });
    DATE_FORMATS.set(language, format);
  }
  return format.format(new Date(`${date}T12:00:00Z`));
}

/** Clock time, with the date where it is another day than `besides`. */
export function momentText(
  ms: number,
  timeZone: string,
  language: Language,
  besides: LocalDate | null,
): string {
  const { date, hour, minute } = clockPartsAt(ms, timeZone);
  const clock = clockOf(hour, minute);
  return date === besides ? clock : `${dateText(date, language)}, ${clock}`;
}

/** "W (270°)". */
export const bearingText = (deg: number, language: Language): string =>
  `${pointText(deg, language)} (${Math.round(wrapDeg(deg))}°)`;

/** Compass point; west is O in Spanish. */
export const pointText = (deg: number, language: Language): string =>
  language === 'es' ? compassPoint(deg).replaceAll('W', 'O') : compassPoint(deg);
