// What the conformal projections share, on a sphere or an ellipsoid: Snyder 1987, USGS Professional Paper 1395, equation
// numbers in brackets. Angles are radians.

import type { Earth } from './earth.ts';

export const RADIANS = Math.PI / 180;

/** Eccentricity; 0 on a sphere. */
export const eccentricityOf = ({ majorM, minorM }: Earth): number =>
  Math.sqrt(1 - (minorM / majorM) * (minorM / majorM));

/** t (15-9): 1 at the equator, 0 at the north pole. */
export function conformalT(lat: number, e: number): number {
  const sine = e * Math.sin(lat);
  return Math.tan(Math.PI / 4 - lat / 2) / ((1 - sine) / (1 + sine)) ** (e / 2);
}

/** m (14-15): radius of a parallel over the half axis. */
export const parallelM = (lat: number, e: number): number =>
  Math.cos(lat) / Math.sqrt(1 - (e * Math.sin(lat)) ** 2);

/** Latitude of t (7-9); each turn gains two digits and more. */
export function latitudeOfT(t: number, e: number): number {
  let lat = Math.PI / 2 - 2 * Math.atan(t);
  if (e === 0) return lat;
  for (let turn = 0; turn < 12; turn += 1) {
    const sine = e * Math.sin(lat);
    const next = Math.PI / 2 - 2 * Math.atan(t * ((1 - sine) / (1 + sine)) ** (e / 2));
    if (next === lat) break;
    lat = next;
  }
  return lat;
}

/** The same angle from -180 to 180 degrees. */
export function turnWithin(deg: number): number {
  const turned = (((deg + 180) % 360) + 360) % 360;
  return turned - 180;
}
