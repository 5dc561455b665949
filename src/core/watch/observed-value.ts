// What an observation says of an element as a limit means it: between which two values that lies.

import { FORECAST_WIND, type WindMeasure } from '#core/score/limit.ts';
import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { relativeHumidityFromDewPoint, vapourPressureDeficitHpa } from '#core/series/humidity.ts';
import { type Observation, speedOf } from './observation.ts';
import type { Station } from './station.ts';
import { usableWind } from './usable-wind.ts';
import type { WatchSettings } from './watch-settings.ts';

/** Core units. A limit is surely met or broken only where it is at both ends. */
export interface ObservedValue {
  /** As measured. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

type Read = (
  o: Observation,
  station: Station,
  settings: WatchSettings,
  of: WindMeasure,
) => ObservedValue | null;

const KNOT_MPS = 1852 / 3600;

/** A report tells a gust where peak and lull are 10 kt apart (FMH-1, 5.4.4): without one, the peak is less above the mean. */
const GUSTLESS_MPS = 10 * KNOT_MPS;

const plain = (value: number | null): ObservedValue | null =>
  value === null || !Number.isFinite(value) ? null : { value, low: value, high: value };

const READERS: Partial<Record<Element, Read>> = {
  windSpeed: readSpeed,
  windGust: readGust,
  windDirection: (o, station) => {
    const wind = usableWind(o, station);
    return wind.kind === 'blowing' ? plain(wind.fromDeg) : null;
  },
  relativeHumidity: (o) => plain(humidityOf(o)),
  temperature: (o) => plain(o.temperatureC),
  dewPoint: (o) => plain(o.dewPointC),
  vapourPressureDeficit: (o) => {
    const humidity = humidityOf(o);
    return o.temperatureC === null || humidity === null
      ? null
      : plain(vapourPressureDeficitHpa(o.temperatureC, humidity));
  },
};

/** What can be observed at all; the others are known by the forecast alone. */
export const OBSERVABLE = Object.keys(READERS) as readonly Element[];

/** `of`: how the wind of the limit is measured. Null where it says nothing of the element, or something absurd. */
export function observedValue(
  element: Element,
  observation: Observation,
  station: Station,
  settings: WatchSettings,
  of: WindMeasure = FORECAST_WIND,
): ObservedValue | null {
  return inRange(element, READERS[element]?.(observation, station, settings, of) ?? null);
}

function inRange(element: Element, read: ObservedValue | null): ObservedValue | null {
  const { least, most } = ELEMENTS[element];
  if (read === null || !(read.value >= least && read.value <= most)) return null;
  return { value: read.value, low: Math.max(least, read.low), high: Math.min(most, read.high) };
}

/** The peak wind that an observation tells of before its own minutes, as a gust of its moment; null where it tells none. */
export function observedPeak(
  observation: Observation,
  station: Station,
  settings: WatchSettings,
  of: WindMeasure = FORECAST_WIND,
): (ObservedValue & { readonly atMs: number }) | null {
  const { peak } = observation;
  if (!peak) return null;
  const [rising, falling] = heightFactors(observation, station, settings, of);
  const { atMs, speedMps } = peak;
  const value = inRange('windGust', { value: speedMps, low: speedMps * falling, high: speedMps * rising });
  return value && { ...value, atMs };
}

/** Measured, else from temperature and dew point. */
function humidityOf({ relativeHumidityPct, temperatureC, dewPointC }: Observation): number | null {
  if (relativeHumidityPct !== null) return relativeHumidityPct;
  if (temperatureC === null || dewPointC === null) return null;
  return relativeHumidityFromDewPoint(temperatureC, dewPointC);
}

function speedRange(o: Observation, station: Station): readonly [number, number] | null {
  const wind = usableWind(o, station);
  if (wind.kind === 'calm') return [0, station.calmBelowMps];
  const speed = speedOf(wind);
  return speed === null ? null : [speed, speed];
}

/** Where it was measured as the limit means it, it is itself; else it lies between two values. */
function readSpeed(
  o: Observation,
  station: Station,
  settings: WatchSettings,
  of: WindMeasure,
): ObservedValue | null {
  const range = speedRange(o, station);
  if (range === null) return null;
  const [rising, falling] = heightFactors(o, station, settings, of);
  const [least, most] = averagingFactors(o.windAveragingS ?? station.windAveragingS, of.averagingS);
  return { value: range[0], low: range[0] * falling * least, high: range[1] * rising * most };
}

/** A gust is never less than the mean; how much more where none is told, only reports say. */
function readGust(
  o: Observation,
  station: Station,
  settings: WatchSettings,
  of: WindMeasure,
): ObservedValue | null {
  const range = speedRange(o, station);
  const [rising, falling] = heightFactors(o, station, settings, of);
  if (o.gustMps !== null) {
    const gust = Math.max(o.gustMps, range?.[0] ?? 0);
    return { value: gust, low: gust * falling, high: gust * rising };
  }
  if (range === null) return null;
  const most = station.kind === 'near' ? range[1] + GUSTLESS_MPS : Number.POSITIVE_INFINITY;
  return { value: range[0], low: range[0] * falling, high: most * rising };
}

/** A wind of which nobody said how high is one held at arm's length. */
const HELD_AT_M = 2;

/** True where the wind of a station is measured otherwise than that of the limit: it cannot be compared as it is. */
export function isOtherWind(element: Element, o: Observation, station: Station, of: WindMeasure): boolean {
  if (element !== 'windSpeed' && element !== 'windGust') return false;
  const [least, most] = averagingFactors(o.windAveragingS ?? station.windAveragingS, of.averagingS);
  const isMean = element === 'windSpeed' && !(least === 1 && most === 1);
  return isMean || heightOf(o, station) !== of.heightM;
}

const heightOf = (o: Observation, station: Station): number =>
  o.windHeightM ?? station.windHeightM ?? HELD_AT_M;

/**
 * Most and least by which the wind of the limit may differ from the one measured: between none and the log law,
 * u₂ = u₁ · ln(z₂/z₀) / ln(z₁/z₀) (neutral wall law; Wieringa 1986).
 */
function heightFactors(
  o: Observation,
  station: Station,
  { limits: { roughnessM } }: WatchSettings,
  of: WindMeasure,
): readonly [rising: number, falling: number] {
  const heightM = heightOf(o, station);
  if (heightM === of.heightM) return [1, 1];
  // So low, or with such a figure, it says nothing of the wind of the limit.
  if (!(heightM > roughnessM)) return [Number.POSITIVE_INFINITY, 1];
  // And so low a limit nothing of its least.
  const factor = Math.max(0, Math.log(of.heightM / roughnessM)) / Math.log(heightM / roughnessM);
  return [Math.max(1, factor), Math.min(1, factor)];
}

/** Largest 3-second gust over a mean of so many seconds, over land (WMO/TD-1555, Harper and others 2010; from memory). */
function gustOver(averagingS: number): number {
  if (averagingS < 60) return 1;
  if (averagingS < 120) return 1.49;
  if (averagingS <= 180) return 1.55;
  if (averagingS <= 600) return 1.66;
  return averagingS <= 3600 ? 1.75 : Number.POSITIVE_INFINITY;
}

/** Least and most by which a mean of the limit may differ from what is a mean of `averagingS`; null where nobody said. */
function averagingFactors(averagingS: number | null, limitS: number): readonly [least: number, most: number] {
  const ofLimit = gustOver(limitS);
  if (averagingS === null) return [1 / ofLimit, Math.max(1, gustOver(600) / ofLimit)];
  const ratio = gustOver(averagingS) / ofLimit;
  return [Math.min(1, ratio), Math.max(1, ratio)];
}
