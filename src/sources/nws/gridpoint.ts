// The raw grid of one cell → a Forecast in core units, hour by hour. Pure: bytes in, records out. Nothing is derived
// here, nothing is extended, and every lesser fault is counted and leaves its hours without a value.

import { hash } from 'node:crypto';
import type { Forecast } from '#core/series/forecast.ts';
import type { Place } from '#core/site/site.ts';
import { parseInstantMs } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import { cellName, outsideCellM, readCellId, readElevationM } from './cell.ts';
import { type FaultTally, makeFaultTally } from './fault-tally.ts';
import { readHazards, readWeather } from './grid-extras.ts';
import { readSeries } from './grid-series.ts';
import { isObject, type JsonObject, parseJson, textOf } from './json.ts';
import { LAYER_NAMES } from './layers.ts';

export interface GridpointOptions {
  /** When these bytes were first received [epoch ms]. */
  readonly fetchedAtMs: number;
  /** The place that the grid is asked for; the cell is then tested to hold it. */
  readonly place?: Place;
  /** Content hash of the bytes where the caller has it already, see `documentIdOf`. */
  readonly documentId?: string;
}

export interface GridpointReading {
  readonly forecast: Forecast;
  /** Whether the cell holds the place, to 250 m; null where no place was given or the outline cannot be read. */
  readonly holdsPlace: boolean | null;
  /** How far outside of the cell the place lies [m]; 0 inside, null as above. */
  readonly outsideM: number | null;
  /** Height of the cell's model terrain [m]. */
  readonly elevationM: number | null;
  /** Layer → unit as written, for the layers that we read: a change from one pull to the next is worth a warning. */
  readonly units: Readonly<Record<string, string>>;
}

/** All that a grid says, wherever in its cell or out of it a place may lie. */
export interface DecodedGridpoint extends Pick<GridpointReading, 'forecast' | 'elevationM' | 'units'> {
  /** The cell's outline as written. */
  readonly geometry: unknown;
  /** How many of the forecast's faults stand before those that concern the place. */
  readonly faultsBefore: number;
}

/** How far outside of its outline a place still counts as in the cell [m]: rounding of the corners, not more. */
const TOLERANCE_M = 250;

/**
 * Reads a raw grid, the answer to `/gridpoints/{office}/{x},{y}`. Throws ServiceError `source_unreadable` where the
 * bytes are no gridpoint document at all. The update time is taken as stated, even where it lies in the future.
 * Source: OpenAPI document of api.weather.gov 3.8.1, schema Gridpoint.
 */
export const readGridpoint = (bytes: Uint8Array, options: GridpointOptions): GridpointReading =>
  placeInGrid(decodeGridpoint(bytes, options), options.place ?? null);

/** The part of the reading that is the same for every place, and takes all the time. Throws as `readGridpoint` does. */
export function decodeGridpoint(
  bytes: Uint8Array,
  { fetchedAtMs, documentId }: Pick<GridpointOptions, 'fetchedAtMs' | 'documentId'>,
): DecodedGridpoint {
  const document = parseJson(bytes, 'the gridpoint answer');
  const properties = gridProperties(document);
  const faults = makeFaultTally();
  const series = readSeries(properties, fetchedAtMs, faults);
  const cell = readCellId(properties, properties['@id'] ?? (isObject(document) ? document['id'] : null));
  if (cell === null) faults.add('cell-unreadable', 'gridId', properties['gridId'] ?? null);
  const faultsBefore = faults.rows().length;
  const forecast: Forecast = {
    source: 'nws',
    documentId: documentId ?? documentIdOf(bytes),
    cell: cell ? cellName(cell) : '',
    groundElevationM: readElevationM(properties),
    issuedAtMs: issuedAt(properties, faults),
    fetchedAtMs,
    series,
    hazards: readHazards(properties, faults),
    weather: readWeather(properties, faults),
    faults: faults.rows(),
  };
  return {
    forecast,
    geometry: isObject(document) ? document['geometry'] : null,
    faultsBefore,
    elevationM: readElevationM(properties),
    units: unitsOf(properties),
  };
}

/** The grid as it is for one place. */
export function placeInGrid(decoded: DecodedGridpoint, place: Place | null): GridpointReading {
  const { forecast, geometry, faultsBefore, elevationM, units } = decoded;
  const outsideM = place === null ? null : outsideCellM(geometry, place);
  const holdsPlace = outsideM === null ? null : outsideM <= TOLERANCE_M;
  const faults = makeFaultTally();
  if (place !== null && holdsPlace === null) faults.add('geometry-unreadable', 'geometry', geometry ?? null);
  if (holdsPlace === false)
    faults.add('place-outside-cell', 'geometry', `${Math.round(outsideM ?? 0)} m outside`);
  const all = forecast.faults.toSpliced(faultsBefore, 0, ...faults.rows());
  return { forecast: { ...forecast, faults: all }, holdsPlace, outsideM, elevationM, units };
}

/** Names a document by its content: its SHA-256, 64 hexadecimal digits. */
export const documentIdOf = (bytes: Uint8Array): string => hash('sha256', bytes, 'hex');

function gridProperties(document: unknown): JsonObject {
  const properties = isObject(document) ? document['properties'] : null;
  if (
    isObject(properties) &&
    ('validTimes' in properties || LAYER_NAMES.some((name) => isObject(properties[name])))
  ) {
    return properties;
  }
  const title = isObject(document) ? textOf(document['title']) : null;
  throw new ServiceError(
    'source_unreadable',
    `the answer is no gridpoint document${title ? `: ${title}` : ''}`,
    {
      facts: { memberNames: isObject(document) ? Object.keys(document).slice(0, 12) : [] },
    },
  );
}

function issuedAt(properties: JsonObject, faults: FaultTally): number | null {
  const text = textOf(properties['updateTime']);
  const issuedAtMs = text === null ? null : parseInstantMs(text);
  if (issuedAtMs === null)
    faults.add('update-time-unreadable', 'updateTime', properties['updateTime'] ?? null);
  return issuedAtMs;
}

function unitsOf(properties: JsonObject): Record<string, string> {
  const units: Record<string, string> = {};
  for (const name of LAYER_NAMES) {
    const layer = properties[name];
    const unit = isObject(layer) ? textOf(layer['uom']) : null;
    if (unit !== null) units[name] = unit;
  }
  return units;
}
