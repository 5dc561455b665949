// Latitude and longitude ↔ cell. Cells are counted as everywhere here: i eastward, j northward, from 0; a cell's point is its
// middle.

import type { Grid, LatLonGrid, PlaneGrid } from './grid.ts';
import { goesRound } from './lat-lon-grid.ts';
import { type EarthPoint, projectionOf } from './projection.ts';

export interface CellPoint {
  readonly i: number;
  readonly j: number;
}

export interface Locator {
  /** Whole numbers are the middles of cells; may lie outside of the grid, or be no number where the plane has no such point. */
  toCell(latDeg: number, lonDeg: number): CellPoint;
  toEarth(i: number, j: number): EarthPoint;
  /** How far the grid's own north lies clockwise of true north at a meridian [deg]. */
  turnDeg(lonDeg: number): number;
  /** True where the column after the last one is the first one. */
  readonly round: boolean;
}

export const locatorOf = (grid: Grid): Locator =>
  grid.kind === 'lat-lon' ? latLonLocator(grid) : planeLocator(grid);

function planeLocator(grid: PlaneGrid): Locator {
  const { ni, nj, scanning, stepXM, stepYM } = grid;
  const projection = projectionOf(grid);
  const first = projection.forward(grid.firstLatDeg, grid.firstLonDeg);
  const westM = first.xM - (scanning.fromEast ? (ni - 1) * stepXM : 0);
  const southM = first.yM - (scanning.fromSouth ? 0 : (nj - 1) * stepYM);
  return {
    toCell: (latDeg, lonDeg) => {
      const { xM, yM } = projection.forward(latDeg, lonDeg);
      return { i: (xM - westM) / stepXM, j: (yM - southM) / stepYM };
    },
    toEarth: (i, j) => projection.inverse(westM + i * stepXM, southM + j * stepYM),
    turnDeg: projection.turnDeg,
    round: false,
  };
}

function latLonLocator(grid: LatLonGrid): Locator {
  const { ni, westDeg, southDeg, stepEastDeg, stepNorthDeg } = grid;
  const round = goesRound(grid);
  return {
    toCell: (latDeg, lonDeg) => {
      const eastDeg = (((lonDeg - westDeg) % 360) + 360) % 360;
      // West of a grid that does not go round is nearer than once round it.
      const gapDeg = 360 - (ni - 1) * stepEastDeg;
      const isWest = !round && eastDeg > 360 - gapDeg / 2;
      return { i: (isWest ? eastDeg - 360 : eastDeg) / stepEastDeg, j: (latDeg - southDeg) / stepNorthDeg };
    },
    toEarth: (i, j) => ({
      latDeg: southDeg + j * stepNorthDeg,
      lonDeg: ((((westDeg + i * stepEastDeg + 180) % 360) + 360) % 360) - 180,
    }),
    turnDeg: () => 0,
    round,
  };
}
