// The answer to `/points/{lat},{lon}`: which grid cell, which zones, which time zone.

import { placeKey } from '#core/site/place-key.ts';
import type { Place } from '#core/site/site.ts';
import { isTimeZone } from '#core/units/local-time.ts';
import { ServiceError } from '#errors.ts';
import type { SourcePoint } from '#sources/source.ts';
import { cellName, gridpointPath, readCellId } from './cell.ts';
import { isObject, type JsonObject, parseJson, textOf } from './json.ts';

export interface PointReading {
  readonly point: SourcePoint;
  /** Path of the raw grid, `/gridpoints/BMX/59,84`. */
  readonly gridpointPath: string;
  /** Kinds of zone that the answer lacks or that cannot be read: alerts for them may be missed. */
  readonly lackingZones: readonly string[];
}

const ZONE_MEMBERS = [
  ['forecast', 'forecastZone'],
  ['county', 'county'],
  ['fire', 'fireWeatherZone'],
] as const;

/**
 * Latitude and longitude as the service takes them: at most 4 decimals, no trailing zeros, no negative zero. Throws
 * ServiceError `outside_coverage` for what is no place on earth.
 */
export function placePath(place: Place): string {
  const { latDeg, lonDeg } = place;
  if (!(Math.abs(latDeg) <= 90 && Math.abs(lonDeg) <= 180)) {
    throw new ServiceError('outside_coverage', `no such place: ${latDeg},${lonDeg}`);
  }
  return placeKey(place);
}

/**
 * Reads a points answer. Throws ServiceError: `outside_coverage` where the place has no grid (land whose grid is
 * missing is answered with null members), `source_unreadable` where the bytes are no points answer.
 * Source: OpenAPI document of api.weather.gov 3.8.1, schema Point.
 */
export function readPoint(bytes: Uint8Array, place: Place): PointReading {
  const document = parseJson(bytes, 'the points answer');
  const properties = isObject(document) ? document['properties'] : null;
  if (!isObject(properties) || !('forecastGridData' in properties || 'gridId' in properties)) {
    throw new ServiceError('source_unreadable', 'the answer is no points document');
  }
  const cell = readCellId(properties, properties['forecastGridData']);
  if (cell === null) {
    throw new ServiceError(
      'outside_coverage',
      `the service has no grid for this place: ${placePath(place)}`,
      {
        facts: { office: textOf(properties['cwa']), gridId: properties['gridId'] ?? null },
      },
    );
  }
  const timeZone = textOf(properties['timeZone']);
  if (timeZone === null || !isTimeZone(timeZone)) {
    throw new ServiceError(
      'source_unreadable',
      `the points answer names no time zone: ${timeZone ?? 'none'}`,
    );
  }
  const zones = ZONE_MEMBERS.map(([, member]) => readZone(properties, member)).filter(
    (zone) => zone !== null,
  );
  const lackingZones = ZONE_MEMBERS.filter(([, member]) => readZone(properties, member) === null).map(
    ([kind]) => kind,
  );
  return {
    point: { place, cell: cellName(cell), timeZone, zones },
    gridpointPath: gridpointPath(cell),
    lackingZones,
  };
}

/** Kind and code of a zone URL, `…/zones/fire/HIZ308`; the kind counts, since kinds may share a code. */
export function zoneOfUrl(url: unknown): { kind: string; code: string } | null {
  const match = typeof url === 'string' ? /\/zones\/([a-z]+)\/([A-Z]{2}[A-Z]\d{3})$/.exec(url) : null;
  return match ? { kind: match[1] as string, code: match[2] as string } : null;
}

const readZone = (properties: JsonObject, member: string) => zoneOfUrl(properties[member]);
