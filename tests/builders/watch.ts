// Observations, stations and conditions, invented: `seen('12:05', '180 8')` is 8 m/s from 180 at five past noon.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Condition, ConditionCode } from '#core/watch/condition.ts';
import type { Observation, ObservedWind } from '#core/watch/observation.ts';
import type { Station } from '#core/watch/station.ts';
import { at } from './time.ts';

export const WATCH_DATE = '2026-03-02';

/** `13:05` → epoch ms on the date of the watch. */
export const clock = (text: string): number => at(`${WATCH_DATE} ${text}`);

/** A tripod at the pit, set to what limits mean: 10 m, mean of 2 minutes. */
export const ON_SITE: Station = {
  id: 'mast',
  name: 'Mast at the pit',
  kind: 'onSite',
  distanceM: 0,
  aboveSiteM: 0,
  periodMin: 5,
  windHeightM: 10,
  windAveragingS: 120,
  directionOffsetDeg: null,
  calmBelowMps: 0.3,
};
export const PERSON: Station = {
  ...ON_SITE,
  id: 'foreman',
  name: 'Foreman',
  kind: 'person',
  periodMin: 30,
  windHeightM: 2,
  windAveragingS: null,
};
/** An airport that observes by the hour. */
export const AIRPORT: Station = {
  ...ON_SITE,
  id: 'KXYZ',
  name: 'Test County Airport',
  kind: 'near',
  distanceM: 12_000,
  aboveSiteM: 20,
  periodMin: 60,
  calmBelowMps: 1.5,
};

/** `180 8` blowing, `VRB 2`, `calm`, `none`, `none 4` (a speed without direction). */
export function windOf(text: string): ObservedWind {
  const [from = '', speed] = text.split(' ');
  const speedMps = speed === undefined ? null : Number(speed);
  if (from === 'calm') return { kind: 'calm' };
  if (from === 'none') return { kind: 'missing', speedMps };
  if (from === 'VRB') return { kind: 'variable', speedMps: speedMps ?? 0 };
  return { kind: 'blowing', fromDeg: Number(from), speedMps: speedMps ?? 5 };
}

/** Observed at `when` (a clock time or epoch ms), received half a minute later, by the mast where nothing else is said. */
export function seen(when: string | number, wind: string, more: Partial<Observation> = {}): Observation {
  const observedAtMs = typeof when === 'number' ? when : clock(when);
  return {
    station: ON_SITE.id,
    observedAtMs,
    receivedAtMs: observedAtMs + MINUTE_MS / 2,
    wind: windOf(wind),
    windHeightM: null,
    windAveragingS: null,
    gustMps: null,
    relativeHumidityPct: null,
    temperatureC: null,
    dewPointC: null,
    pressurePa: null,
    thunder: null,
    windShiftAtMs: null,
    quality: 'unverified',
    corrects: false,
    raw: null,
    ...more,
  };
}

/** One observation every `everyMin` from `from` to `to`, both included; `wind` may depend on the minute since `from`. */
export function every(
  everyMin: number,
  from: string,
  to: string,
  wind: string | ((minute: number) => string),
  more: Partial<Observation> | ((minute: number) => Partial<Observation>) = {},
): Observation[] {
  const made: Observation[] = [];
  for (let ms = clock(from); ms <= clock(to); ms += everyMin * MINUTE_MS) {
    const minute = (ms - clock(from)) / MINUTE_MS;
    made.push(
      seen(
        ms,
        typeof wind === 'function' ? wind(minute) : wind,
        typeof more === 'function' ? more(minute) : more,
      ),
    );
  }
  return made;
}

/** The one condition with a code (and subject); throws where there is none, or more than one. */
export function the(conditions: readonly Condition[], code: ConditionCode, subject?: string): Condition {
  const found = conditions.filter((c) => c.code === code && (subject === undefined || c.subject === subject));
  const [first] = found;
  if (found.length !== 1 || first === undefined) {
    const keys = conditions.map((c) => `${c.code} ${c.subject}`).join(', ');
    throw new Error(`${found.length} conditions ${code} ${subject ?? ''} in: ${keys}`);
  }
  return first;
}
