// The stand-in's answers about stations and their observations, in the shapes of the NWS API.

import { bearingAndDistance } from '#core/units/direction.ts';
import { parseInstantMs } from '#core/units/local-time.ts';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import { type Answer, problem } from './answer.ts';
import { DEMO_CELLS } from './cells.ts';
import { DEMO_STATIONS, type DemoStation } from './demo-stations.ts';
import {
  OBSERVED_EVERY_MS,
  type ObservedWeather,
  observedWeather,
  type WindTurn,
} from './observed-weather.ts';
import { instantText } from './run-length.ts';

const LIST = /^\/gridpoints\/([A-Z]{3})\/(\d+),(\d+)\/stations$/;
const STATION = /^\/stations\/([A-Z0-9]+)$/;
const OBSERVATIONS = /^\/stations\/([A-Z0-9]+)\/observations(\/latest)?$/;

/** An observation is out this long after it was made [ms]. */
const OUT_AFTER_MS = 2 * MINUTE_MS;
const KEPT_MS = 7 * DAY_MS;
const MOST_LISTED = 500;

/** Null where the address is about something else. */
export function stationAnswer(
  url: URL,
  nowMs: number,
  baseUrl: string,
  turn: WindTurn | null,
): Answer | null {
  const list = LIST.exec(url.pathname);
  if (list) return listAnswer(`${list[1]} ${list[2]},${list[3]}`, baseUrl);
  const [, id] = STATION.exec(url.pathname) ?? OBSERVATIONS.exec(url.pathname) ?? [];
  if (id === undefined) return null;
  const station = DEMO_STATIONS.find((one) => one.id === id);
  if (station === undefined) return problem(404, 'NotFound', 'Not Found', `There is no station ${id}`);
  if (STATION.test(url.pathname)) return document(stationFeature(station, null, baseUrl), 21_600, null);
  const newestMs = Math.floor((nowMs - OUT_AFTER_MS) / OBSERVED_EVERY_MS) * OBSERVED_EVERY_MS;
  const featureAt = (ms: number) =>
    observationFeature(station, ms, observedWeather(station, ms, nowMs, turn), baseUrl);
  if (url.pathname.endsWith('/latest')) return document(featureAt(newestMs), 60, newestMs + OUT_AFTER_MS);
  return observationsAnswer(url.searchParams, newestMs, featureAt);
}

const document = (body: unknown, maxAgeS: number, modifiedMs: number | null): Answer => ({
  kind: 'document',
  document: body,
  maxAgeS,
  modifiedMs,
});

function listAnswer(cellName: string, baseUrl: string): Answer {
  const cell = DEMO_CELLS.find((c) => `${c.gridId} ${c.gridX},${c.gridY}` === cellName);
  if (cell === undefined) {
    return problem(404, 'InvalidGridpoint', 'Invalid Gridpoint', `There is no grid cell ${cellName}`);
  }
  const features = DEMO_STATIONS.map((station) => stationFeature(station, cell.place, baseUrl));
  return document({ type: 'FeatureCollection', features }, 21_600, null);
}

/** Since, until and how many, newest first; anything else in the query is refused, as there. */
function observationsAnswer(
  query: URLSearchParams,
  newestMs: number,
  featureAt: (ms: number) => unknown,
): Answer {
  const odd = [...query.keys()].find((key) => !['start', 'end', 'limit'].includes(key));
  const start = instantIn(query, 'start');
  const end = instantIn(query, 'end');
  const limit = Number(query.get('limit') ?? MOST_LISTED);
  const isLimit = Number.isInteger(limit) && limit >= 1 && limit <= MOST_LISTED;
  if (odd !== undefined || start === undefined || end === undefined || !isLimit) {
    return problem(400, 'BadRequest', 'Bad Request', 'Expected start, end and limit');
  }
  const features: unknown[] = [];
  const lastMs = Math.max(newestMs - KEPT_MS, start ?? 0);
  for (let ms = newestMs; ms >= lastMs && features.length < limit; ms -= OBSERVED_EVERY_MS) {
    if (end === null || ms <= end) features.push(featureAt(ms));
  }
  return document({ type: 'FeatureCollection', features }, 60, null);
}

/** Null where it is not asked for, undefined where it cannot be read. */
function instantIn(query: URLSearchParams, key: string): number | null | undefined {
  const text = query.get(key);
  return text === null ? null : (parseInstantMs(text) ?? undefined);
}

function stationFeature(
  { id, name, place, elevationM, cell }: DemoStation,
  from: DemoStation['place'] | null,
  baseUrl: string,
): unknown {
  const way = from && bearingAndDistance(from, place);
  return {
    id: `${baseUrl}/stations/${id}`,
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [place.lonDeg, place.latDeg] },
    properties: {
      '@id': `${baseUrl}/stations/${id}`,
      '@type': 'wx:ObservationStation',
      elevation: { unitCode: 'wmoUnit:m', value: elevationM },
      stationIdentifier: id,
      name,
      timeZone: cell.timeZone,
      provider: 'ASOS',
      subProvider: '',
      ...(way
        ? {
            distance: { unitCode: 'wmoUnit:m', value: way.distanceM },
            bearing: { unitCode: 'wmoUnit:degree_(angle)', value: Math.round(way.bearingDeg) },
          }
        : {}),
      forecast: `${baseUrl}/zones/forecast/${cell.forecastZone}`,
      county: `${baseUrl}/zones/county/${cell.county}`,
      fireWeatherZone: `${baseUrl}/zones/fire/${cell.fireZone}`,
    },
  };
}

function observationFeature(
  { id, place, elevationM }: DemoStation,
  ms: number,
  weather: ObservedWeather,
  baseUrl: string,
): unknown {
  const url = `${baseUrl}/stations/${id}/observations/${instantText(ms)}`;
  const value = (unit: string, number: number | null) => ({
    unitCode: `wmoUnit:${unit}`,
    value: number,
    qualityControl: number === null ? 'Z' : 'V',
  });
  return {
    id: url,
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [place.lonDeg, place.latDeg] },
    properties: {
      '@id': url,
      '@type': 'wx:ObservationStation',
      elevation: { unitCode: 'wmoUnit:m', value: elevationM },
      station: `${baseUrl}/stations/${id}`,
      timestamp: instantText(ms),
      rawMessage: reportText(id, ms, weather),
      textDescription: 'Clear',
      presentWeather: [],
      temperature: value('degC', weather.temperatureC),
      dewpoint: value('degC', weather.dewPointC),
      windDirection: value('degree_(angle)', weather.windKt === 0 ? 0 : weather.fromDeg),
      windSpeed: value('km_h-1', kmh(weather.windKt)),
      windGust: value('km_h-1', weather.gustKt === null ? null : kmh(weather.gustKt)),
      barometricPressure: value('Pa', PRESSURE_PA),
      relativeHumidity: value('percent', weather.humidityPct),
      cloudLayers: [],
    },
  };
}

/** 30.05 inHg. */
const PRESSURE_PA = 101_760;

/** The API tells winds from whole knots by way of 0.1 m/s: 5 kt are 9.36 km/h. */
const kmh = (knots: number): number => Math.round(Math.round(knots * 5.15) * 36) / 100;

function reportText(id: string, ms: number, weather: ObservedWeather): string {
  const [day, hour, minute] = [8, 11, 14].map((at) => new Date(ms).toISOString().slice(at, at + 2));
  const shift =
    weather.shiftAtMs === null ? [] : [`WSHFT ${new Date(weather.shiftAtMs).toISOString().slice(14, 16)}`];
  const { temperatureC, dewPointC } = weather;
  return [
    `${id} ${day}${hour}${minute}Z AUTO ${windGroup(weather)} 10SM CLR`,
    `${whole(temperatureC)}/${whole(dewPointC)} A3005 RMK AO2`,
    ...shift,
    `T${tenths(temperatureC)}${tenths(dewPointC)}`,
  ].join(' ');
}

function windGroup({ windKt, gustKt, fromDeg }: ObservedWeather): string {
  if (fromDeg === null) return '00000KT';
  const gust = gustKt === null ? '' : `G${digits(gustKt, 2)}`;
  return `${digits(fromDeg, 3)}${digits(windKt, 2)}${gust}KT`;
}

const digits = (number: number, count: number): string => String(number).padStart(count, '0');
const whole = (celsius: number): string =>
  `${Math.round(celsius) < 0 ? 'M' : ''}${digits(Math.abs(Math.round(celsius)), 2)}`;
const tenths = (celsius: number): string =>
  `${celsius < 0 ? 1 : 0}${digits(Math.abs(Math.round(celsius * 10)), 3)}`;
