// One observation of the NWS API → ours. Its values and its report's text are two sources: the second fills what the
// first lacks, and disagreement is told.

import type { DataFault } from '#core/series/forecast.ts';
import { relativeHumidityFromDewPoint } from '#core/series/humidity.ts';
import { parseInstantMs } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { type Observation, speedOf } from '#core/watch/observation.ts';
import type { Station } from '#core/watch/station.ts';
import { type FaultTally, makeFaultTally } from '#sources/nws/fault-tally.ts';
import { isObject, type JsonObject, textOf } from '#sources/nws/json.ts';
import { isAhead } from './ahead.ts';
import { gustAndPeak } from './gust-and-peak.ts';
import { METAR_AVERAGING_S, METAR_HEIGHT_M, type MetarReading, readMetar } from './metar.ts';
import { leastQuality, PRESSURE, readNwsValue, type ToldValue, valueKind } from './nws-value.ts';
import { observedWind } from './observed-wind.ts';
import { joinWinds } from './two-winds.ts';

export interface NwsObservationOptions {
  readonly stationId: string;
  readonly station: Pick<Station, 'id' | 'calmBelowMps' | 'windHeightM' | 'windAveragingS'>;
  readonly receivedAtMs: number;
}

export interface NwsObservationReading {
  /** Null where it is of no use: no time, another station, blank, or zeros in the place of values. */
  readonly observation: Observation | null;
  readonly faults: readonly DataFault[];
}

/** Reads a feature. Never throws; the time is the observation's own. */
export function readNwsObservation(feature: unknown, options: NwsObservationOptions): NwsObservationReading {
  const tally = makeFaultTally();
  const observation = observationOf(feature, options, tally);
  return { observation, faults: tally.rows() };
}

const KINDS = {
  temperature: valueKind('temperature', 'temperature'),
  dewPoint: valueKind('dewpoint', 'dewPoint'),
  humidity: valueKind('relativeHumidity', 'relativeHumidity'),
  speed: valueKind('windSpeed', 'windSpeed'),
  gust: valueKind('windGust', 'windGust'),
  direction: valueKind('windDirection', 'windDirection'),
  pressure: PRESSURE,
};

type Told = { readonly [name in keyof typeof KINDS]: ToldValue };

function observationOf(
  feature: unknown,
  { stationId, station, receivedAtMs }: NwsObservationOptions,
  tally: FaultTally,
): Observation | null {
  const properties = isObject(feature) ? feature['properties'] : null;
  if (!isObject(properties)) return refused(tally, 'no-observation', 'feature', feature);
  const observedAtMs = parseInstantMs(textOf(properties['timestamp']) ?? '');
  if (observedAtMs === null) return refused(tally, 'no-time', 'timestamp', properties['timestamp']);
  if (isAhead(observedAtMs, receivedAtMs)) {
    return refused(tally, 'ahead-of-time', 'timestamp', properties['timestamp']);
  }
  const named = textOf(properties['station'])?.split('/').at(-1) ?? stationId;
  if (named !== stationId) return refused(tally, 'other-station', 'station', properties['station']);
  const told = Object.fromEntries(
    Object.entries(KINDS).map(([name, kind]) => [name, readNwsValue(properties, kind, tally)]),
  ) as Told;
  if (isZeros(told)) return refused(tally, 'zeros', 'relativeHumidity', properties['timestamp']);
  const report = reportOf(properties, stationId, observedAtMs, station.calmBelowMps, tally);
  const observation = joined(told, report, station, observedAtMs, tally);
  const whole: Observation = {
    ...observation,
    observedAtMs,
    receivedAtMs,
    station: station.id,
    thunder: saysThunder(properties) ? true : (report?.thunder ?? null),
  };
  return isBlank(whole) ? refused(tally, 'blank', 'feature', properties['timestamp']) : whole;
}

/** weather-gov/api#61: fields came as zero instead of not at all. Air of 0 % does not exist. */
const isZeros = ({ humidity }: Told): boolean => humidity.value === 0;

/** A report whose text is of another moment says nothing of this one. */
const SAME_MOMENT_MS = 5 * MINUTE_MS;

function reportOf(
  properties: JsonObject,
  stationId: string,
  observedAtMs: number,
  calmBelowMps: number,
  tally: FaultTally,
): MetarReading | null {
  const text = textOf(properties['rawMessage']);
  if (text === null) return null;
  const { reading, faults } = readMetar(text, { aroundMs: observedAtMs, calmBelowMps });
  for (const { kind, where, example, count } of faults) tally.add(kind, where, example, count);
  if (reading === null) return null;
  const sameTime = Math.abs(reading.observedAtMs - observedAtMs) <= SAME_MOMENT_MS;
  if (sameTime && reading.stationId === stationId) return reading;
  tally.add(sameTime ? 'other-station' : 'other-time', 'rawMessage', text);
  return null;
}

type Joined = Omit<Observation, 'station' | 'observedAtMs' | 'receivedAtMs' | 'thunder'>;

function joined(
  told: Told,
  report: MetarReading | null,
  station: NwsObservationOptions['station'],
  observedAtMs: number,
  tally: FaultTally,
): Joined {
  const winds = joinWinds(windSide(told, report, station.calmBelowMps, tally), reportSide(report));
  for (const name of winds.disagreed) tally.add('disagrees-with-report', name, report?.raw ?? '');
  const temperatureC = told.temperature.value ?? report?.temperatureC ?? null;
  const dewPointC = told.dewPoint.value ?? report?.dewPointC ?? null;
  return {
    wind: winds.wind,
    windHeightM: report === null ? station.windHeightM : METAR_HEIGHT_M,
    windAveragingS: report === null ? station.windAveragingS : METAR_AVERAGING_S,
    ...gustAndPeak({ gustMps: winds.gustMps, observedAtMs, peakWind: report?.peakWind ?? null }),
    relativeHumidityPct: told.humidity.value ?? humidityOf(temperatureC, dewPointC, tally),
    temperatureC,
    dewPointC,
    pressurePa: pressureOf(told) ?? report?.pressurePa ?? null,
    windShiftAtMs: report?.windShiftAtMs ?? null,
    quality: leastQuality([
      winds.quality,
      told.humidity.quality,
      told.temperature.quality,
      told.dewPoint.quality,
    ]),
    corrects: report?.corrected ?? false,
    raw: report?.raw ?? null,
  };
}

/** The wind by the values. A null direction at a speed is variable where the report says so, and else not known. */
function windSide(told: Told, report: MetarReading | null, calmBelowMps: number, tally: FaultTally) {
  const { speed, direction, gust } = told;
  const variable = report?.wind.kind === 'variable' && direction.value === null ? 'variable' : null;
  const wind = observedWind({ speedMps: speed.value, direction: direction.value ?? variable }, calmBelowMps);
  const weak = gust.value !== null && gust.value < (speedOf(wind) ?? 0);
  if (weak) tally.add('gust-below-wind', 'windGust', gust.value);
  const quality = leastQuality([speed.quality, direction.quality, weak ? null : gust.quality]);
  return {
    wind,
    gustMps: weak ? null : gust.value,
    quality: speed.value === null && gust.value === null ? null : quality,
  };
}

const reportSide = (report: MetarReading | null) =>
  report && { wind: report.wind, gustMps: report.gustMps, quality: 'unverified' as const };

function humidityOf(temperatureC: number | null, dewPointC: number | null, tally: FaultTally): number | null {
  if (temperatureC === null || dewPointC === null) return null;
  const pct = relativeHumidityFromDewPoint(temperatureC, dewPointC);
  if (!Number.isNaN(pct)) return pct;
  tally.add('dew-point-above-temperature', 'dewpoint', `${dewPointC} and ${temperatureC}`);
  return null;
}

const pressureOf = ({ pressure }: Told): number | null =>
  pressure.value === null ? null : Math.round(pressure.value * 100);

/** The list of present weather, and its words for people: whichever tells of thunder. */
function saysThunder(properties: JsonObject): boolean {
  const listed = properties['presentWeather'];
  const rows = Array.isArray(listed) ? (listed as readonly unknown[]) : [];
  const words = rows.filter(isObject).flatMap((row) => [row['weather'], row['rawString']]);
  return [...words, properties['textDescription']].some(
    (word) => typeof word === 'string' && /thunder|lightning|^(?:[-+]|VC)?TS/i.test(word),
  );
}

const isBlank = ({ wind, gustMps, ...rest }: Observation): boolean =>
  wind.kind === 'missing' &&
  wind.speedMps === null &&
  gustMps === null &&
  !rest.peak &&
  rest.relativeHumidityPct === null &&
  rest.temperatureC === null &&
  rest.dewPointC === null &&
  rest.pressurePa === null &&
  rest.thunder === null &&
  rest.windShiftAtMs === null;

function refused(tally: FaultTally, kind: string, where: string, example: unknown): null {
  tally.add(kind, where, example);
  return null;
}
