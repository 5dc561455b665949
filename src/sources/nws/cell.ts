// The grid cell of a document: its name, its height and whether a place lies in it.

import type { Place } from '#core/site/site.ts';
import { isObject, type JsonObject, textOf } from './json.ts';
import { outsideM, readOutline } from './outline.ts';
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

/** How far outside of the cell's polygon a place lies [m]: 0 inside of it; null where there is none that can be read. */
export function outsideCellM(geometry: unknown, place: Place): number | null {
  const isPolygon = isObject(geometry) && geometry['type'] === 'Polygon';
  const ring = isPolygon ? readOutline(geometry)?.[0]?.[0] : undefined;
  return ring === undefined ? null : outsideM([ring], place);
}
