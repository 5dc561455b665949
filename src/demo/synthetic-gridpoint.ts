// A raw gridpoint document in the format of the NWS API, made from a story of the demonstration. Pure: the moment is an
// argument, and the document changes on the hour only, so that a conditional request within the hour finds it unchanged.

import type { Place } from '#core/site/site.ts';
import { DAY_MS, floorToHour, HOUR_MS, intersect, MINUTE_MS, type Span } from '#core/units/time.ts';
import type { DemoCell } from './cells.ts';
import { type HourWeather, weatherAt } from './hour-weather.ts';
import {
  durationText,
  instantText,
  intervalText,
  type LayerEntry,
  runLength,
  SIX_HOURS_MS,
  sixHourBlock,
  sixHourSums,
} from './run-length.ts';

/** What of a cell makes its forecast. */
type CellFacts = Pick<
  DemoCell,
  'timeZone' | 'place' | 'gridId' | 'gridX' | 'gridY' | 'elevationM' | 'story' | 'mixingEndsAfterH'
>;

export interface GridpointInput extends CellFacts {
  readonly nowMs: number;
  /** When the grid flags a hazard, in order; as often in real grids, the list of codes came empty. */
  readonly hazards: readonly Span[];
  /** Where links point to, no slash at the end. */
  readonly baseUrl: string;
}

export interface GridLayer {
  readonly uom?: string;
  readonly values: readonly LayerEntry<unknown>[];
}

export interface GridpointDocument {
  readonly '@context': readonly unknown[];
  readonly id: string;
  readonly type: 'Feature';
  readonly geometry: {
    readonly type: 'Polygon';
    readonly coordinates: readonly (readonly (readonly number[])[])[];
  };
  readonly properties: Readonly<Record<string, unknown>>;
}

/** When the grid was last updated: some minutes before the last full hour, another minute for each cell. */
export function updateTimeMs(nowMs: number, gridX: number, gridY: number): number {
  return floorToHour(nowMs) - (9 + ((gridX + gridY) % 30)) * MINUTE_MS - ((gridX * 7) % 60) * 1000;
}

export function syntheticGridpoint(input: GridpointInput): GridpointDocument {
  const { gridId, gridX, gridY, baseUrl } = input;
  const updatedMs = updateTimeMs(input.nowMs, gridX, gridY);
  const fromMs = floorToHour(updatedMs) - SIX_HOURS_MS;
  const toMs = sixHourBlock(fromMs + 7 * DAY_MS + 20 * HOUR_MS);
  const url = `${baseUrl}/gridpoints/${gridId}/${gridX},${gridY}`;
  return {
    '@context': [
      'https://geojson.org/geojson-ld/geojson-context.jsonld',
      { '@version': '1.1', wmoUnit: 'https://codes.wmo.int/common/unit/' },
    ],
    id: url,
    type: 'Feature',
    geometry: { type: 'Polygon', coordinates: [cellAround(input.place)] },
    properties: {
      '@id': url,
      '@type': 'wx:Gridpoint',
      updateTime: instantText(updatedMs),
      validTimes: `${instantText(fromMs)}/${durationText(toMs - fromMs)}`,
      elevation: { unitCode: 'wmoUnit:m', value: input.elevationM },
      forecastOffice: `${baseUrl}/offices/${gridId}`,
      gridId,
      gridX,
      gridY,
      ...layersOf(input, fromMs, toMs),
    },
  };
}

/** A cell of about 2.5 km, slightly askew as on a conic projection, with the place off its centre; NW, SW, SE, NE, NW. */
function cellAround({ latDeg, lonDeg }: Place): number[][] {
  const corners = [
    [-0.0151, 0.0098],
    [-0.0127, -0.0131],
    [0.0154, -0.0112],
    [0.013, 0.0117],
  ].map(([east, north]) => [degrees(lonDeg + (east as number)), degrees(latDeg + (north as number))]);
  return [...corners, corners[0] as number[]];
}

const degrees = (deg: number): number => Math.round(deg * 1e7) / 1e7;

/** Hours after the grid's beginning from which it has three-hourly values only. */
const HOURLY_FOR_H = 84;
const THREE_HOURS_MS = 3 * HOUR_MS;

/** How far the layers go that offices fill for the first days only [h]. */
const LIGHTNING_H = 132;
const SMOKE_INDEX_H = 76;

type Layers = Readonly<Record<string, GridLayer>>;

function layersOf(input: GridpointInput, fromMs: number, toMs: number): Layers {
  const weather = weatherAt(input.story, input.timeZone, input.nowMs);
  const stepped = (ms: number): HourWeather => {
    const coarse = ms - fromMs >= HOURLY_FOR_H * HOUR_MS;
    return weather(coarse ? Math.max(fromMs, Math.floor(ms / THREE_HOURS_MS) * THREE_HOURS_MS) : ms);
  };
  const until = (hours: number | null): number =>
    hours === null ? toMs : Math.min(toMs, fromMs + hours * HOUR_MS);
  const layer = (uom: string | null, endMs: number, pick: (w: HourWeather) => unknown): GridLayer => ({
    ...(uom === null ? {} : { uom }),
    values: runLength(fromMs, endMs, (ms) => pick(stepped(ms))),
  });
  const mixingMs = until(input.mixingEndsAfterH);
  const flagged = input.hazards.map((h) => intersect(h, { fromMs, toMs })).filter((h) => h !== null);
  return {
    temperature: layer('wmoUnit:degC', toMs, (w) => celsius(w.temperatureF)),
    dewpoint: layer('wmoUnit:degC', toMs, (w) => celsius(w.dewPointF)),
    relativeHumidity: layer('wmoUnit:percent', toMs, (w) => w.humidityPct),
    skyCover: layer('wmoUnit:percent', toMs, (w) => w.skyPct),
    windDirection: layer('wmoUnit:degree_(angle)', toMs, (w) => w.fromDeg),
    windSpeed: layer('wmoUnit:km_h-1', toMs, (w) => kmh(w.windKt)),
    windGust: layer('wmoUnit:km_h-1', toMs, (w) => kmh(w.gustKt)),
    weather: layer(null, toMs, weatherList),
    hazards: { values: flagged.map((h) => ({ validTime: intervalText(h.fromMs, h.toMs), value: [] })) },
    probabilityOfPrecipitation: {
      uom: 'wmoUnit:percent',
      values: runLength(fromMs, toMs, (ms) => worstOfBlock(weather, ms)),
    },
    quantitativePrecipitation: {
      uom: 'wmoUnit:mm',
      values: sixHourSums(fromMs, toMs, (ms) => weather(ms).precipitationMm),
    },
    transportWindSpeed: layer('wmoUnit:km_h-1', mixingMs, (w) => kmh(w.transportKt)),
    transportWindDirection: layer('wmoUnit:degree_(angle)', mixingMs, (w) => (w.fromDeg + 10) % 360),
    mixingHeight: layer('wmoUnit:m', mixingMs, (w) => metres(w.mixingFt)),
    probabilityOfThunder: layer(null, toMs, (w) => w.thunderPct),
    lightningActivityLevel: layer(null, until(LIGHTNING_H), (w) => w.lightning),
    dispersionIndex: layer(null, until(SMOKE_INDEX_H), dispersion),
    lowVisibilityOccurrenceRiskIndex: layer(null, until(SMOKE_INDEX_H), lowVisibilityRisk),
    ...EMPTY_LAYERS,
  };
}

/** The real API lists these whether an office fills them or not. */
const EMPTY_LAYERS: Layers = Object.fromEntries(
  [
    'snowLevel',
    'hainesIndex',
    'waveHeight',
    'wavePeriod',
    'pressure',
    'probabilityOfTropicalStormWinds',
    'potentialOf25mphWinds',
    'potentialOf30mphWindGusts',
    'grasslandFireDangerIndex',
    'davisStabilityIndex',
    'atmosphericDispersionIndex',
    'redFlagThreatIndex',
  ].map((name) => [name, { values: [] }]),
);

const KNOT_KMH = 1.852; // international knot, exact
const FOOT_M = 0.3048; // international foot, exact

const kmh = (knots: number): number => Math.round(knots * KNOT_KMH * 1e4) / 1e4;
const metres = (feet: number): number => Math.round(feet * FOOT_M * 1e4) / 1e4;
const celsius = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;

/** A chance of rain stands for its whole block of six hours. */
function worstOfBlock(weather: (ms: number) => HourWeather, ms: number): number {
  const blockMs = sixHourBlock(ms);
  const chances = [0, 1, 2, 3, 4, 5].map((h) => weather(blockMs + h * HOUR_MS).precipitationPct);
  return Math.max(...chances);
}

function weatherList({ kind }: HourWeather): unknown[] {
  const visibility = { unitCode: 'wmoUnit:km', value: null };
  if (kind === 'none')
    return [{ coverage: null, weather: null, intensity: null, visibility, attributes: [] }];
  const coverage = kind === 'fog' ? 'patchy' : 'chance';
  const intensity = kind === 'fog' ? null : 'light';
  return [{ coverage, weather: kind, intensity, visibility, attributes: [] }];
}

/** Grows with what carries smoke away. An index of plausible size, not the published one. */
const dispersion = ({ mixingFt, transportKt }: HourWeather): number =>
  Math.max(1, Math.min(120, Math.round((mixingFt * transportKt) / 1200)));

/** 1 to 9, higher with damp air and little dispersion. An index of plausible size, not the published one. */
function lowVisibilityRisk(hour: HourWeather): number {
  const damp = Math.max(0, Math.floor((hour.humidityPct - 60) / 8));
  return Math.min(9, 1 + damp + (dispersion(hour) < 5 && damp > 0 ? 3 : 0));
}
