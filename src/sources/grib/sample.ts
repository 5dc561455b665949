// Values of a field at a place: the nearest cell, or between the four around it. Missing cells are never bridged.

import { wrapDeg } from '#core/units/direction.ts';
import type { Grid } from '#sources/grib/grid/grid.ts';
import { type Locator, locatorOf } from '#sources/grib/grid/locate.ts';

/** A place on a grid, worked out once for all of its fields. */
export interface GridPlace {
  /** Cell whose middle is nearest on the plane of the grid. */
  readonly nearest: number;
  /** The four cells around the place, south-west, south-east, north-west, north-east; null at the rim beyond the last middles. */
  readonly corners: readonly [number, number, number, number] | null;
  /** Share of each corner; they add up to 1. */
  readonly shares: readonly [number, number, number, number];
  /** How far the grid's own north lies clockwise of true north here [deg]; 0 where vectors are given east and north. */
  readonly turnDeg: number;
}

/** Null where the place lies in none of the grid's cells. */
export function placeOn(
  grid: Grid,
  latDeg: number,
  lonDeg: number,
  locator: Locator = locatorOf(grid),
): GridPlace | null {
  const { ni, nj } = grid;
  const { i, j } = locator.toCell(latDeg, lonDeg);
  const column = Math.round(i);
  const row = Math.round(j);
  const inColumns = locator.round ? column >= 0 && column <= ni : column >= 0 && column < ni;
  // No number is in no cell.
  if (!(inColumns && row >= 0 && row < nj)) return null;
  const corners = cornersOf(grid, locator.round, i, j);
  return {
    nearest: row * ni + (column % ni),
    corners: corners?.cells ?? null,
    shares: corners?.shares ?? [0, 0, 0, 0],
    turnDeg: grid.gridRelative ? locator.turnDeg(lonDeg) : 0,
  };
}

function cornersOf({ ni, nj }: Grid, round: boolean, i: number, j: number) {
  const lastColumn = round ? ni : ni - 1;
  if (!(i >= 0 && i <= lastColumn && j >= 0 && j <= nj - 1)) return null;
  const [west, south] = [
    Math.min(Math.floor(i), Math.max(0, lastColumn - 1)),
    Math.min(Math.floor(j), Math.max(0, nj - 2)),
  ];
  const [east, north] = [Math.min(west + 1, lastColumn) % ni, Math.min(south + 1, nj - 1)];
  const [a, b] = [i - west, j - south];
  const at = (column: number, row: number): number => row * ni + column;
  return {
    cells: [at(west, south), at(east, south), at(west, north), at(east, north)] as const,
    shares: [(1 - a) * (1 - b), a * (1 - b), (1 - a) * b, a * b] as const,
  };
}

export const nearestValue = (values: Float32Array, { nearest }: GridPlace): number =>
  values[nearest] as number;

/** NaN where one of the cells that have a share has no value, and at the rim. */
export function bilinearValue(values: Float32Array, { corners, shares }: GridPlace): number {
  if (!corners) return Number.NaN;
  let sum = 0;
  for (let n = 0; n < 4; n += 1) {
    const share = shares[n] as number;
    if (share > 0) sum += share * (values[corners[n] as number] as number);
  }
  return sum;
}

/** Shorter sums of unit vectors than this point nowhere: the cells around contradict each other. */
const LEAST_AGREEMENT = 0.1;

/** A direction [deg] between the four cells, as the vector of their directions; NaN where they cancel out. */
export function bilinearDirectionDeg(directions: Float32Array, { corners, shares }: GridPlace): number {
  if (!corners) return Number.NaN;
  let [east, north] = [0, 0];
  for (let n = 0; n < 4; n += 1) {
    const share = shares[n] as number;
    if (share === 0) continue;
    const angle = ((directions[corners[n] as number] as number) * Math.PI) / 180;
    east += share * Math.sin(angle);
    north += share * Math.cos(angle);
  }
  if (!(Math.hypot(east, north) >= LEAST_AGREEMENT)) return Number.NaN;
  return wrapDeg((Math.atan2(east, north) * 180) / Math.PI);
}
