// GeoJSON (RFC 7946): WGS 84, longitude first, rings of an outside counterclockwise, nothing across the antimeridian.

import type { Place } from '#core/site/site.ts';
import { cutAtAntimeridian } from './cut-at-antimeridian.ts';

/** Degrees east, degrees north. */
export type LonLat = [number, number];

/** Counterclockwise; its first position is its last. */
export type Ring = LonLat[];

export interface Point {
  readonly type: 'Point';
  readonly coordinates: LonLat;
}

export type Geometry =
  | Point
  | { readonly type: 'Polygon'; readonly coordinates: Ring[] }
  | { readonly type: 'MultiPolygon'; readonly coordinates: Ring[][] };

export const GEO_TYPE = 'application/geo+json; charset=utf-8';

/** A decimetre: no pit and no wind is known better (11.2 advises against more). */
const DECIMALS = 6;
const rounded = (deg: number): number => Math.round(deg * 10 ** DECIMALS) / 10 ** DECIMALS + 0;
const roundedOf = ([lon, lat]: LonLat): LonLat => [rounded(lon), rounded(lat)];

/** `geometry` null: nobody knows where (3.2). */
export const feature = <P, G extends Geometry | null>(id: string, geometry: G, properties: P) => ({
  ...{ type: 'Feature' as const, id, geometry, properties },
});

/** `at`: latitude, longitude. */
export const pointAt = ([latDeg, lonDeg]: readonly [number, number]): Point => ({
  type: 'Point',
  coordinates: roundedOf([lonDeg, latDeg]),
});

/** `ring`: longitudes go on beyond ±180 rather than jump. */
export function areaOf(ring: Ring): Geometry {
  const [first, ...more] = cutAtAntimeridian(ring).map((part) => [part.map(roundedOf)]);
  if (first !== undefined && more.length === 0) return { type: 'Polygon', coordinates: first };
  return { type: 'MultiPolygon', coordinates: first === undefined ? [] : [first, ...more] };
}

export const placeOf = ([latDeg, lonDeg]: readonly [number, number]): Place => ({ latDeg, lonDeg });
