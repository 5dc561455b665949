// What a map with tiles shows at first: all pits, or where there is none the whole of the ground.

import type { Position } from '#core/units/position.ts';

type Box = readonly [number, number, number, number];

export interface GroundBounds {
  /** West, south, east, north [degrees]; the east may lie beyond 180. */
  readonly box: Box;
  /** Latitude and longitude, the latter as the box counts it. */
  at(place: Position): readonly [number, number];
}

/** About a single pit so much is shown [degrees]. */
const LEAST_DEG = 0.1;

/** `places`: latitude and longitude. Both sides of the antimeridian are one place. */
export function groundBounds(places: readonly (readonly [number, number])[], ground: Box): GroundBounds {
  const lons = places.map(([, lon]) => lon);
  const isSplit = lons.length > 0 && Math.max(...lons) - Math.min(...lons) > 180;
  const eastward = (lon: number): number => (isSplit && lon < 0 ? lon + 360 : lon);
  const at = ({ latDeg, lonDeg }: Position): readonly [number, number] => [latDeg, eastward(lonDeg)];
  if (places.length === 0) return { box: ground, at };
  const lats = places.map(([lat]) => lat);
  const east = lons.map(eastward);
  const box: Box = [
    Math.min(...east) - LEAST_DEG,
    Math.min(...lats) - LEAST_DEG,
    Math.max(...east) + LEAST_DEG,
    Math.max(...lats) + LEAST_DEG,
  ];
  return { box, at };
}
