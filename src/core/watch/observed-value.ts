// What an observation says of an element as a limit means it: between which two values that lies.

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

type Read = (o: Observation, station: Station, settings: WatchSettings) => ObservedValue | null;

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

/** Null where it says nothing of the element, or something absurd. */
export function observedValue(
  element: Element,
  observation: Observation,
  station: Station,
  settings: WatchSettings,
): ObservedValue | null {
  return inRange(element, READERS[element]?.(observation, station, settings) ?? null);
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
): (ObservedValue & { readonly atMs: number }) | null {
  const { peak } = observation;
  if (!peak) return null;
  const [rising, falling] = heightFactors(observation, station, settings);
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

/** A limit on wind means 10 m and a mean of two minutes. */
function readSpeed(o: Observation, station: Station, settings: WatchSettings): ObservedValue | null {
  const range = speedRange(o, station);
  if (range === null) return null;
  const [rising, falling] = heightFactors(o, station, settings);
  const [least, most] = averagingFactors(o.windAveragingS ?? station.windAveragingS);
  return { value: range[0], low: range[0] * falling * least, high: range[1] * rising * most };
}

/** A limit on gust means 10 m. A gust is never less than the mean; how much more where none is told, only reports say. */
function readGust(o: Observation, station: Station, settings: WatchSettings): ObservedValue | null {
  const range = speedRange(o, station);
  const [rising, falling] = heightFactors(o, station, settings);
  if (o.gustMps !== null) {
    const gust = Math.max(o.gustMps, range?.[0] ?? 0);
    return { value: gust, low: gust * falling, high: gust * rising };
  }
  if (range === null) return null;
  const most = station.kind === 'near' ? range[1] + GUSTLESS_MPS : Number.POSITIVE_INFINITY;
  return { value: range[0], low: range[0] * falling, high: most * rising };
}

const LIMIT_HEIGHT_M = 10;
/** A wind of which nobody said how high is one held at arm's length. */
const HELD_AT_M = 2;

/**
 * Most and least by which a wind at 10 m may differ from the one measured: between none and the log law,
 * u₂ = u₁ · ln(z₂/z₀) / ln(z₁/z₀) (neutral wall law; Wieringa 1986).
 */
function heightFactors(
  o: Observation,
  station: Station,
  { limits }: WatchSettings,
): readonly [rising: number, falling: number] {
  const heightM = o.windHeightM ?? station.windHeightM ?? HELD_AT_M;
  // So low, or with such a figure, it says nothing of the wind at 10 m.
  if (!(heightM > limits.roughnessM)) return [Number.POSITIVE_INFINITY, 1];
  const factor = Math.log(LIMIT_HEIGHT_M / limits.roughnessM) / Math.log(heightM / limits.roughnessM);
  return [Math.max(1, factor), Math.min(1, factor)];
}

/** Largest 3-second gust over a mean of so many seconds, over land (WMO/TD-1555, Harper and others 2010; from memory). */
const GUST_OVER = { minute: 1.49, twoMinutes: 1.55, tenMinutes: 1.66, hour: 1.75 };

/** Least and most by which a mean of two minutes may differ from what is a mean of `averagingS`. */
function averagingFactors(averagingS: number | null): readonly [least: number, most: number] {
  const { minute, twoMinutes, tenMinutes, hour } = GUST_OVER;
  if (averagingS === null) return [1 / twoMinutes, tenMinutes / twoMinutes];
  if (averagingS < 60) return [1 / twoMinutes, 1];
  if (averagingS < 120) return [minute / twoMinutes, 1];
  if (averagingS <= 180) return [1, 1];
  if (averagingS <= 600) return [1, tenMinutes / twoMinutes];
  return [1, averagingS <= 3600 ? hour / twoMinutes : Number.POSITIVE_INFINITY];
}
