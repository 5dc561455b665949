// The points of a field, as section 3 says them. Cell (i, j) counts eastward and northward in the grid's own sense, from its
// south-west corner; the values of a field stand at j × ni + i, whatever order they were sent in.

import type { Earth } from './earth.ts';

/** How the values of section 7 run over the points (flag table 3.4). */
export interface Scanning {
  /** 0x80: the first points of a row lie in the east. */
  readonly fromEast: boolean;
  /** 0x40: the first rows lie in the south. */
  readonly fromSouth: boolean;
  /** 0x20: consecutive points lie in one column, not in one row. */
  readonly byColumn: boolean;
  /** 0x10: every second row (column) runs the other way. */
  readonly turns: boolean;
}

interface Common {
  /** Columns, eastward in the grid's own sense, and rows, northward. */
  readonly ni: number;
  readonly nj: number;
  readonly scanning: Scanning;
  readonly earth: Earth;
  /** Flag 0x08 of flag table 3.3: components of vectors run along the grid, not east and north. */
  readonly gridRelative: boolean;
}

/** Equidistant points in degrees (template 3.0). The south-west point has i = j = 0. */
export interface LatLonGrid extends Common {
  readonly kind: 'lat-lon';
  readonly westDeg: number;
  readonly southDeg: number;
  readonly stepEastDeg: number;
  readonly stepNorthDeg: number;
}

/** Equidistant points on a plane. First scanned point, and the steps along the plane's axes. */
interface PlaneCommon extends Common {
  readonly firstLatDeg: number;
  readonly firstLonDeg: number;
  readonly stepXM: number;
  readonly stepYM: number;
}

export interface MercatorGrid extends PlaneCommon {
  readonly kind: 'mercator';
  /** Latitude at which the steps are true. */
  readonly trueLatDeg: number;
}

export interface PolarGrid extends PlaneCommon {
  readonly kind: 'polar-stereographic';
  readonly trueLatDeg: number;
  /** Meridian that is parallel to the y axis. */
  readonly orientationDeg: number;
  readonly southPole: boolean;
}

export interface LambertGrid extends PlaneCommon {
  readonly kind: 'lambert';
  readonly orientationDeg: number;
  /** The two latitudes at which the cone cuts the earth. */
  readonly cutsDeg: readonly [number, number];
}

export type PlaneGrid = MercatorGrid | PolarGrid | LambertGrid;
export type Grid = LatLonGrid | PlaneGrid;
