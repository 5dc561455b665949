// What a station of the demonstration observes: the weather of its cell between the full hours, with small variations by
// moment, and turned where the caller turns the wind. No chance in it.

import { wrapDeg } from '#core/units/direction.ts';
import { floorToHour, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { DemoStation } from './demo-stations.ts';
import { type HourWeather, weatherAt } from './hour-weather.ts';
import { vary } from './vary.ts';

/** The observed wind turns where no forecast foresaw it. */
export interface WindTurn {
  /** Null: at every station. */
  readonly siteId: string | null;
  readonly atMs: number;
  readonly toDeg: number;
}

export interface ObservedWeather {
  readonly windKt: number;
  /** Null where gusts are too weak to be told. */
  readonly gustKt: number | null;
  /** Multiples of 10 in 10 … 360; null in calm. */
  readonly fromDeg: number | null;
  readonly temperatureC: number;
  readonly dewPointC: number;
  readonly humidityPct: number;
  /** When the wind turned, within the last quarter of an hour. */
  readonly shiftAtMs: number | null;
}

export const OBSERVED_EVERY_MS = 5 * MINUTE_MS;
/** A turn is told as one for so long [ms]. */
const SHIFT_TOLD_MS = 15 * MINUTE_MS;
/** A wind below 3 kt is told as calm. */
const LEAST_KT = 3;
/** Gusts are told from here on, and where they rise so far above the wind. */
const LEAST_GUST_KT = 10;
const LEAST_RISE_KT = 3;

/** `nowMs`: when it is asked; the day's story depends on it. */
export function observedWeather(
  station: DemoStation,
  ms: number,
  nowMs: number,
  turn: WindTurn | null,
): ObservedWeather {
  const { story, timeZone, siteId } = station.cell;
  const weather = weatherAt(story, timeZone, nowMs);
  const hourMs = floorToHour(ms);
  const before = weather(hourMs);
  const after = weather(hourMs + HOUR_MS);
  const between = (pick: (hour: HourWeather) => number): number =>
    pick(before) + ((pick(after) - pick(before)) * (ms - hourMs)) / HOUR_MS;
  const name = `${station.id} ${ms}`;
  const windKt = Math.max(0, Math.round(between((h) => h.windKt)) + vary(`${name} wind`, 1));
  const gustKt = Math.round(between((h) => h.gustKt)) + vary(`${name} gust`, 1);
  const isGust = gustKt >= LEAST_GUST_KT && gustKt - windKt >= LEAST_RISE_KT;
  const turned = turn !== null && (turn.siteId === null || turn.siteId === siteId) && ms >= turn.atMs;
  const straight = turned
    ? turn.toDeg
    : directionBetween(before.fromDeg, after.fromDeg, (ms - hourMs) / HOUR_MS);
  const isCalm = windKt < LEAST_KT;
  return {
    windKt: isCalm ? 0 : windKt,
    gustKt: isGust && !isCalm ? gustKt : null,
    fromDeg: isCalm ? null : tens(straight + 10 * vary(`${name} direction`, 1)),
    temperatureC: celsius(between((h) => h.temperatureF)),
    dewPointC: celsius(between((h) => h.dewPointF)),
    humidityPct: Math.round(between((h) => h.humidityPct)),
    shiftAtMs: turned && ms - turn.atMs < SHIFT_TOLD_MS ? turn.atMs : null,
  };
}

/** By the shorter way round. */
const directionBetween = (fromDeg: number, toDeg: number, share: number): number =>
  fromDeg + (wrapDeg(toDeg - fromDeg + 180) - 180) * share;

const tens = (deg: number): number => wrapDeg(Math.round(deg / 10) * 10) || 360;

const celsius = (fahrenheit: number): number => Math.round(((fahrenheit - 32) * 50) / 9) / 10;
