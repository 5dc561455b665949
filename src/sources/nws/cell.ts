// The grid cell of a document: its name, its height and whether a place lies in it.

import type { Place } from '#core/site/site.ts';
import { isObject, type JsonObject, textOf } from './json.ts';
import { conversionOf, convert } from './units.ts';

export interface CellId {
  readonly gridId: string;
  readonly x: number;
  readonly y: number;
}

export const cellName = (cell: CellId): string => `${cell.gridId} ${cell.x},${cell.y}`;
export const gridpointPath = (cell: CellId): string => `/gridpoints/${cell.gridId}/${cell.x},${cell.y}`;

/**
 * The cell that a points or gridpoint answer names: `gridId` with `gridX` and `gridY` (numbers, or text until 2025),
 * otherwise the grid URL, as in 2020 answers. `cwa` is no grid: Anchorage's office AFC has the grids AER and ALU.
 */
export function readCellId(properties: JsonObject, url: unknown): CellId | null {
  const gridId = textOf(properties['gridId']);
  const x = gridIndex(properties['gridX']);
  const y = gridIndex(properties['gridY']);
  if (gridId !== null && GRID_ID.test(gridId) && x !== null && y !== null) return { gridId, x, y };
  const match = typeof url === 'string' ? /\/gridpoints\/([A-Z]{2,4})\/(\d{1,5}),(\d{1,5})$/.exec(url) : null;
  return match ? { gridId: match[1] as string, x: Number(match[2]), y: Number(match[3]) } : null;
}

const GRID_ID = /^[A-Z]{2,4}$/;

function gridIndex(value: unknown): number | null {
  const index = typeof value === 'string' && /^\d{1,5}$/.test(value) ? Number(value) : value;
  return typeof index === 'number' && Number.isInteger(index) && index >= 0 && index < 100_000 ? index : null;
}

/** Height of the cell's model terrain [m]; null where the document gives none that can be read. */
export function readElevationM(properties: JsonObject): number | null {
  const elevation = properties['elevation'];
  if (!isObject(elevation) || typeof elevation['value'] !== 'number') return null;
  const conversion = conversionOf(textOf(elevation['unitCode']) ?? '', 'length');
  return conversion ? convert(elevation['value'], conversion) : null;
}

/**
 * How far outside of the cell's polygon a place lies [m]: 0 inside of it; null where there is no polygon that can be
 * read. GeoJSON order, longitude first (RFC 7946, 3.1.1); on a plane around the place, good enough for 3 km cells.
 */
export function outsideCellM(geometry: unknown, place: Place): number | null {
  const ring = outerRing(geometry, place);
  if (ring === null) return null;
  let inside = false;
  let nearestM = Number.POSITIVE_INFINITY;
  for (let i = 0; i < ring.length; i += 1) {
    const a = ring[i] as XyM;
    const b = ring[(i + 1) % ring.length] as XyM;
    if (a.y > 0 !== b.y > 0 && 0 < ((b.x - a.x) * -a.y) / (b.y - a.y) + a.x) inside = !inside;
    nearestM = Math.min(nearestM, distanceToEdgeM(a, b));
  }
  return inside ? 0 : nearestM;
}

/** Metres east and north of the place. */
interface XyM {
  readonly x: number;
  readonly y: number;
}

const DEGREE_M = 60 * 1852; // one minute of latitude is close to one nautical mile

function outerRing(geometry: unknown, place: Place): XyM[] | null {
  const rings = isObject(geometry) && geometry['type'] === 'Polygon' ? geometry['coordinates'] : null;
  const corners: unknown = Array.isArray(rings) ? rings[0] : null;
  if (!Array.isArray(corners) || corners.length < 4) return null;
  const eastM = DEGREE_M * Math.cos((place.latDeg * Math.PI) / 180);
  const ring: XyM[] = [];
  for (const corner of corners as readonly unknown[]) {
    if (!Array.isArray(corner)) return null;
    const [lonDeg, latDeg] = corner as readonly unknown[];
    if (typeof lonDeg !== 'number' || typeof latDeg !== 'number') return null;
    const east = ((((lonDeg - place.lonDeg + 180) % 360) + 360) % 360) - 180;
    ring.push({ x: east * eastM, y: (latDeg - place.latDeg) * DEGREE_M });
  }
  return ring;
}

/** Distance [m] of the origin from the edge between two corners. */
function distanceToEdgeM(a: XyM, b: XyM): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const length2 = dx * dx + dy * dy;
  const along = length2 === 0 ? 0 : Math.min(1, Math.max(0, -(a.x * dx + a.y * dy) / length2));
  return Math.hypot(a.x + along * dx, a.y + along * dy);
}
