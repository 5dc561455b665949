// A posted reading → an observation, or the fields for which it is refused. Values that are absurd are missing, and told:
// a dead thermometer must not take the wind with it.

import type { z } from 'zod';
import { ELEMENTS } from '#core/series/elements.ts';
import { relativeHumidityFromDewPoint } from '#core/series/humidity.ts';
import { type Observation, type ObservedWind, speedOf } from '#core/watch/observation.ts';
import type { ConfiguredStation } from '#core/watch/station-source.ts';
import { isAhead } from './ahead.ts';
import { observedWind } from './observed-wind.ts';
import { type PostedReading, postedReading } from './posted-schema.ts';
import { trueDirection } from './true-direction.ts';

/** What is wrong, for whoever must say it in another language. */
export type FieldWhy =
  | 'unreadable'
  | 'not-known'
  | 'no-station'
  | 'future'
  | 'absurd'
  | 'calm-at-a-speed'
  | 'no-degrees'
  | 'two-directions'
  | 'no-declination'
  | 'no-mount'
  | 'weaker-than-wind'
  | 'dew-point-above'
  | 'nothing-told';

export interface FieldFault {
  readonly field: string;
  readonly why: FieldWhy;
  readonly message: string;
}

/** Where there is an observation, the faults are of values that were left out. */
export interface PostedResult {
  readonly observation: Observation | null;
  readonly faults: readonly FieldFault[];
}

export type PostedStation = Pick<ConfiguredStation, 'station' | 'directions'>;

export interface PostedOptions {
  /** The stations of the site, by their names. */
  readonly stationNamed: (id: string) => PostedStation | null;
  readonly receivedAtMs: number;
}

/** Judges one reading. Never throws. */
export function postedObservation(
  item: unknown,
  { stationNamed, receivedAtMs }: PostedOptions,
): PostedResult {
  const parsed = postedReading.safeParse(item);
  if (!parsed.success) return { observation: null, faults: parsed.error.issues.map(faultOf) };
  const reading = parsed.data;
  const known = stationNamed(reading.station);
  if (known === null) return refused('station', 'no-station', `no station "${reading.station}" here`);
  if (isAhead(reading.time, receivedAtMs)) {
    return refused('time', 'future', 'lies more than 5 minutes in the future');
  }
  const faults: FieldFault[] = [];
  const values = plausible(reading, faults);
  const wind = windOf(reading, values.windSpeed, known, faults);
  if (wind === null) return { observation: null, faults };
  const observation = built({ reading, values, wind, known, receivedAtMs, raw: rawOf(item) }, faults);
  if (isBlank(observation)) {
    faults.push({ field: '(reading)', why: 'nothing-told', message: 'tells nothing that was measured' });
  }
  return { observation: isBlank(observation) ? null : observation, faults };
}

function faultOf(issue: z.core.$ZodIssue): FieldFault {
  if (issue.code === 'unrecognized_keys') {
    const field = issue.keys.map((key) => key.slice(0, 60)).join(', ');
    return { field, why: 'not-known', message: 'is not known' };
  }
  const field = issue.path.length === 0 ? '(reading)' : String(issue.path[0]);
  return { field, why: 'unreadable', message: issue.message.replace(/^Invalid input: /, '') };
}

const refused = (field: string, why: FieldWhy, message: string): PostedResult => ({
  observation: null,
  faults: [{ field, why, message }],
});

/** Ends included; air of 0 % does not exist, and is what a dead sensor tells. */
const RANGES = {
  windSpeed: [ELEMENTS.windSpeed.least, ELEMENTS.windSpeed.most],
  windGust: [ELEMENTS.windGust.least, ELEMENTS.windGust.most],
  windHeight: [0.5, 200],
  windAveraging: [1, 3600],
  relativeHumidity: [1, ELEMENTS.relativeHumidity.most],
  temperature: [ELEMENTS.temperature.least, ELEMENTS.temperature.most],
  dewPoint: [ELEMENTS.dewPoint.least, ELEMENTS.dewPoint.most],
  pressure: [50_000, 110_000],
} as const satisfies { [name in keyof PostedReading]?: readonly [number, number] };

type Values = { readonly [name in keyof typeof RANGES]: number | null };

function plausible(reading: PostedReading, faults: FieldFault[]): Values {
  const names = Object.keys(RANGES) as (keyof typeof RANGES)[];
  const values = names.map((name) => {
    const value = reading[name] ?? null;
    const [least, most] = RANGES[name];
    if (value === null || (value >= least && value <= most)) return [name, value];
    faults.push({ field: name, why: 'absurd', message: 'is beyond what can be, and was left out' });
    return [name, null];
  });
  return Object.fromEntries(values) as Values;
}

/** Null where the reading is refused for its direction. */
function windOf(
  reading: PostedReading,
  speedMps: number | null,
  { station, directions }: PostedStation,
  faults: FieldFault[],
): ObservedWind | null {
  const direction = reading.windDirection ?? null;
  if (typeof direction !== 'number') {
    const wind = observedWind({ speedMps, direction }, station.calmBelowMps);
    // An absurd speed that was left out is no calm, even where it is called so.
    if (wind.kind === 'calm' && speedMps === null && (reading.windSpeed ?? null) !== null) {
      return { kind: 'missing', speedMps: null };
    }
    if (direction === 'calm' && wind.kind === 'missing') {
      const message = 'is "calm" at a speed, and was left out';
      faults.push({ field: 'windDirection', why: 'calm-at-a-speed', message });
    }
    return wind;
  }
  if (!(direction >= 0 && direction <= 360)) {
    const message = 'expected degrees from 0 to 360';
    faults.push({ field: 'windDirection', why: 'no-degrees', message });
    return null;
  }
  const reference = reading.reference ?? directions.reference;
  const fromDeg = trueDirection(direction, reference, directions);
  if (fromDeg === null) {
    const isMagnetic = reference === 'magnetic';
    const message = `is ${reference}, and the ${isMagnetic ? 'declination' : 'mounting'} of this station is not configured`;
    faults.push({ field: 'windDirection', why: isMagnetic ? 'no-declination' : 'no-mount', message });
    return null;
  }
  return observedWind({ speedMps, direction: fromDeg }, station.calmBelowMps);
}

interface Parts {
  readonly reading: PostedReading;
  readonly values: Values;
  readonly wind: ObservedWind;
  readonly known: PostedStation;
  readonly receivedAtMs: number;
  readonly raw: string;
}

function built(
  { reading, values, wind, known: { station }, receivedAtMs, raw }: Parts,
  faults: FieldFault[],
): Observation {
  const { temperature, dewPoint, relativeHumidity, windGust } = values;
  const isWeak = windGust !== null && windGust < (values.windSpeed ?? speedOf(wind) ?? 0);
  if (isWeak) {
    const message = 'is weaker than the wind, and was left out';
    faults.push({ field: 'windGust', why: 'weaker-than-wind', message });
  }
  return {
    station: station.id,
    observedAtMs: reading.time,
    receivedAtMs,
    wind,
    windHeightM: values.windHeight ?? station.windHeightM,
    windAveragingS: values.windAveraging ?? station.windAveragingS,
    gustMps: isWeak ? null : windGust,
    relativeHumidityPct: relativeHumidity ?? humidityOf(temperature, dewPoint, faults),
    temperatureC: temperature,
    dewPointC: dewPoint,
    pressurePa: values.pressure,
    thunder: reading.thunder ?? null,
    windShiftAtMs: null,
    quality: reading.quality ?? 'unverified',
    corrects: reading.corrects ?? false,
    raw,
  };
}

function humidityOf(
  temperatureC: number | null,
  dewPointC: number | null,
  faults: FieldFault[],
): number | null {
  if (temperatureC === null || dewPointC === null) return null;
  const pct = relativeHumidityFromDewPoint(temperatureC, dewPointC);
  if (!Number.isNaN(pct)) return pct;
  const message = 'is above the temperature, and gives no humidity';
  faults.push({ field: 'dewPoint', why: 'dew-point-above', message });
  return null;
}

const LONGEST_RAW = 2_000;

const rawOf = (item: unknown): string => (JSON.stringify(item) ?? '').slice(0, LONGEST_RAW);

const isBlank = (o: Observation): boolean =>
  o.wind.kind === 'missing' &&
  [
    o.wind.speedMps,
    o.gustMps,
    o.relativeHumidityPct,
    o.temperatureC,
    o.dewPointC,
    o.pressurePa,
    o.thunder,
  ].every((value) => value === null);
