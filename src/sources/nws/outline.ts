// Outlines of land in GeoJSON (RFC 7946): whether a place lies inside of one, and how far outside.

import type { Place } from '#core/site/site.ts';
import { isObject } from './json.ts';

/** Corners of a closed line, longitude first (RFC 7946, 3.1.1). */
export type Ring = readonly (readonly [lonDeg: number, latDeg: number])[];

/** Each polygon with its outer ring first, then those of its holes. */
export type Outline = readonly (readonly Ring[])[];

/** The polygons of a geometry; null where there are none, or any of them cannot be read. */
export function readOutline(geometry: unknown): Outline | null {
  if (!isObject(geometry)) return null;
  const { type, coordinates } = geometry as { readonly type?: unknown; readonly coordinates?: unknown };
  if (type !== 'Polygon' && type !== 'MultiPolygon') return null;
  const polygons: unknown = type === 'Polygon' ? [coordinates] : coordinates;
  return Array.isArray(polygons) && polygons.length > 0 ? allOrNone(polygons, readRings) : null;
}

const readRings = (rings: unknown): readonly Ring[] | null =>
  Array.isArray(rings) && rings.length > 0 ? allOrNone(rings, readRing) : null;

const readRing = (corners: unknown): Ring | null =>
  Array.isArray(corners) && corners.length >= 4 ? allOrNone(corners, readCorner) : null;

function readCorner(corner: unknown): readonly [number, number] | null {
  if (!Array.isArray(corner)) return null;
  const [lonDeg, latDeg] = corner as readonly unknown[];
  return typeof lonDeg === 'number' && typeof latDeg === 'number' ? [lonDeg, latDeg] : null;
}

function allOrNone<T>(list: readonly unknown[], read: (item: unknown) => T | null): readonly T[] | null {
  const found: T[] = [];
  for (const item of list) {
    const one = read(item);
    if (one === null) return null;
    found.push(one);
  }
  return found;
}

/** True where a place lies in one of the polygons, or on its edge. */
export const isInside = (outline: Outline, place: Place): boolean =>
  outline.some((rings) => outsideM(rings, place) === 0);

/**
 * How far outside of a polygon a place lies [m]; 0 inside of it and on its edge. What a line that crosses itself winds
 * around more than once is inside. On a plane around the place, good enough for near edges.
 */
export function outsideM(rings: readonly Ring[], place: Place): number {
  const eastM = DEGREE_M * Math.cos((place.latDeg * Math.PI) / 180);
  let nearestM = Number.POSITIVE_INFINITY;
  const windings = rings.map((ring) => {
    const around = ring.map(([lonDeg, latDeg]): XyM => {
      const east = ((((lonDeg - place.lonDeg + 180) % 360) + 360) % 360) - 180;
      return { x: east * eastM, y: (latDeg - place.latDeg) * DEGREE_M };
    });
    let winding = 0;
    for (const [i, a] of around.entries()) {
      const b = around[(i + 1) % around.length] as XyM;
      winding += crossing(a, b);
      nearestM = Math.min(nearestM, distanceToEdgeM(a, b));
    }
    return winding;
  });
  const [outer, ...holes] = windings;
  return outer !== 0 && holes.every((winding) => winding === 0) ? 0 : nearestM;
}

/** 1 or -1 where an edge crosses the line from the origin to the east, by its direction. */
function crossing(a: XyM, b: XyM): number {
  if (a.y > 0 === b.y > 0 || 0 >= ((b.x - a.x) * -a.y) / (b.y - a.y) + a.x) return 0;
  return b.y > a.y ? 1 : -1;
}

/** Metres east and north of the place. */
interface XyM {
  readonly x: number;
  readonly y: number;
}

const DEGREE_M = 60 * 1852; // one minute of latitude is close to one nautical mile

/** Distance [m] of the origin from the edge between two corners. */
function distanceToEdgeM(a: XyM, b: XyM): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : Math.min(1, Math.max(0, -(a.x * dx + a.y * dy) / length2));
  return Math.hypot(a.x + along * dx, a.y + along * dy);
}
