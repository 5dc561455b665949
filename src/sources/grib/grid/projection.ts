// Latitude and longitude ↔ metres on the plane of a grid, by closed formulas (Snyder 1987, USGS Professional Paper 1395).

import { conformalT, eccentricityOf, latitudeOfT, parallelM, RADIANS, turnWithin } from './conformal.ts';
import type { LambertGrid, MercatorGrid, PlaneGrid, PolarGrid } from './grid.ts';

export interface PlanePoint {
  readonly xM: number;
  readonly yM: number;
}

export interface EarthPoint {
  readonly latDeg: number;
  readonly lonDeg: number;
}

export interface Projection {
  /** Not finite at the pole that the plane does not hold. */
  forward(latDeg: number, lonDeg: number): PlanePoint;
  /** Longitude from -180 to 180. */
  inverse(xM: number, yM: number): EarthPoint;
  /** How far the plane's y axis lies clockwise of true north at a meridian [deg]. */
  turnDeg(lonDeg: number): number;
}

export function projectionOf(grid: PlaneGrid): Projection {
  if (grid.kind === 'lambert') return lambert(grid);
  return grid.kind === 'mercator' ? mercator(grid) : polar(grid);
}

/** Lambert conformal (15-1 to 15-11); y is 0 at the first cutting latitude on the grid's meridian. */
function lambert({ earth, orientationDeg, cutsDeg }: LambertGrid): Projection {
  const e = eccentricityOf(earth);
  const [cut1, cut2] = [cutsDeg[0] * RADIANS, cutsDeg[1] * RADIANS];
  const [m1, t1] = [parallelM(cut1, e), conformalT(cut1, e)];
  const n =
    Math.abs(cut1 - cut2) < 1e-10
      ? Math.sin(cut1)
      : Math.log(m1 / parallelM(cut2, e)) / Math.log(t1 / conformalT(cut2, e));
  const scaleM = (earth.majorM * m1) / (n * t1 ** n);
  const originM = scaleM * t1 ** n;
  const turnDeg = (lonDeg: number): number => n * turnWithin(lonDeg - orientationDeg);
  return {
    forward: (latDeg, lonDeg) => {
      const radiusM = scaleM * conformalT(latDeg * RADIANS, e) ** n;
      const turn = turnDeg(lonDeg) * RADIANS;
      return { xM: radiusM * Math.sin(turn), yM: originM - radiusM * Math.cos(turn) };
    },
    inverse: (xM, yM) => {
      const side = Math.sign(n);
      const radiusM = side * Math.hypot(xM, originM - yM);
      const turn = Math.atan2(side * xM, side * (originM - yM));
      const lat = latitudeOfT((radiusM / scaleM) ** (1 / n), e);
      return { latDeg: lat / RADIANS, lonDeg: turnWithin(orientationDeg + turn / RADIANS / n) };
    },
    turnDeg,
  };
}

/** Polar stereographic (21-30 to 21-40). The south is the north upside down. */
function polar({ earth, orientationDeg, trueLatDeg, southPole }: PolarGrid): Projection {
  const e = eccentricityOf(earth);
  const side = southPole ? -1 : 1;
  const trueLat = side * trueLatDeg * RADIANS;
  const scaleM =
    Math.PI / 2 - trueLat < 1e-10
      ? (2 * earth.majorM) / Math.sqrt((1 + e) ** (1 + e) * (1 - e) ** (1 - e))
      : (earth.majorM * parallelM(trueLat, e)) / conformalT(trueLat, e);
  return {
    forward: (latDeg, lonDeg) => {
      const radiusM = scaleM * conformalT(side * latDeg * RADIANS, e);
      const turn = turnWithin(lonDeg - orientationDeg) * RADIANS;
      return { xM: radiusM * Math.sin(turn), yM: -side * radiusM * Math.cos(turn) };
    },
    inverse: (xM, yM) => {
      const lat = latitudeOfT(Math.hypot(xM, yM) / scaleM, e);
      const turn = Math.atan2(xM, -side * yM);
      return { latDeg: (side * lat) / RADIANS, lonDeg: turnWithin(orientationDeg + turn / RADIANS) };
    },
    turnDeg: (lonDeg) => side * turnWithin(lonDeg - orientationDeg),
  };
}

/** Mercator (7-6, 7-7), true at a latitude; x is 0 in the middle of the grid. */
function mercator({ earth, firstLonDeg, trueLatDeg, ni, stepXM, scanning }: MercatorGrid): Projection {
  const e = eccentricityOf(earth);
  const scaleM = earth.majorM * parallelM(trueLatDeg * RADIANS, e);
  const halfDeg = ((ni - 1) * stepXM) / scaleM / RADIANS / 2;
  const middleDeg = firstLonDeg + (scanning.fromEast ? -halfDeg : halfDeg);
  return {
    forward: (latDeg, lonDeg) => ({
      xM: scaleM * turnWithin(lonDeg - middleDeg) * RADIANS,
      yM: -scaleM * Math.log(conformalT(latDeg * RADIANS, e)),
    }),
    inverse: (xM, yM) => ({
      latDeg: latitudeOfT(Math.exp(-yM / scaleM), e) / RADIANS,
      lonDeg: turnWithin(middleDeg + xM / scaleM / RADIANS),
    }),
    turnDeg: () => 0,
  };
}
