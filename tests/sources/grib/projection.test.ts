// Forward and inverse projections against PROJ by way of gdaltransform, against proj4 on spheres and ellipsoids, and against
// the worked examples of Snyder 1987 (USGS Professional Paper 1395, appendix A; figures and pages from memory).

import fc from 'fast-check';
import proj4 from 'proj4';
import { describe, expect, it } from 'vitest';
import type { Earth } from '#sources/grib/grid/earth.ts';
import type { LambertGrid, MercatorGrid, PlaneGrid, PolarGrid } from '#sources/grib/grid/grid.ts';
import { locatorOf } from '#sources/grib/grid/locate.ts';
import { projectionOf } from '#sources/grib/grid/projection.ts';

const scanning = { fromEast: false, fromSouth: true, byColumn: false, turns: true };
const sphere = (radiusM: number): Earth => ({ majorM: radiusM, minorM: radiusM });
const base = { ni: 2145, nj: 1377, scanning, gridRelative: false };

/** NDFD CONUS as its files have it. */
const NDFD: LambertGrid = {
  ...base,
  kind: 'lambert',
  earth: sphere(6_371_200),
  firstLatDeg: 20.191999,
  firstLonDeg: 238.445999,
  orientationDeg: 265,
  cutsDeg: [25, 25],
  stepXM: 2539.703,
  stepYM: 2539.703,
};
const NBM: LambertGrid = { ...NDFD, ni: 2345, nj: 1597, firstLatDeg: 19.229, firstLonDeg: 233.7234 };
const HRRR: LambertGrid = {
  ...NDFD,
  ni: 1799,
  nj: 1059,
  earth: sphere(6_371_229),
  firstLatDeg: 21.138123,
  firstLonDeg: 237.280472,
  orientationDeg: 262.5,
  cutsDeg: [38.5, 38.5],
  stepXM: 3000,
  stepYM: 3000,
};

describe('gdaltransform', () => {
  const cases: [string, LambertGrid, number, number, number, number][] = [
    ['NDFD first point', NDFD, 20.191999, 238.445999, -2763204.49923, -263789.46871],
    ['NDFD Houston', NDFD, 29.7604, -95.3698, -35822.82421, 530013.94585],
    ['NDFD Denver', NDFD, 39.7392, -104.9903, -883847.2823, 1690550.99945],
    ['NDFD Seattle', NDFD, 47.6062, -122.3321, -2218193.00788, 2809817.03213],
    ['NDFD Portland ME', NDFD, 43.6591, -70.2553, 2096204.99952, 2306032.95951],
    // With the first longitude that older documents give it, to six decimals.
    ['NBM first point', NBM, 19.229, 233.723448, -3271146.675, -263794.89162],
    ['HRRR first point', HRRR, 21.138123, 237.280472, -2697520.14252, -1587306.15256],
    ['HRRR Houston', HRRR, 29.7604, -95.3698, 207940.29777, -973110.0166],
    ['HRRR Denver', HRRR, 39.7392, -104.9903, -639922.75541, 163861.84198],
  ];

  it.each(cases)('%s', (_, grid, latDeg, lonDeg, xM, yM) => {
    const projection = projectionOf(grid);
    const point = projection.forward(latDeg, lonDeg);
    // Figures are printed to a hundredth of a millimetre.
    expect(Math.abs(point.xM - xM)).toBeLessThan(1e-5);
    expect(Math.abs(point.yM - yM)).toBeLessThan(1e-5);
    const back = projection.inverse(xM, yM);
    expect(Math.abs(back.latDeg - latDeg)).toBeLessThan(1e-9);
    expect(Math.abs(((back.lonDeg - lonDeg + 540) % 360) - 180)).toBeLessThan(1e-9);
  });
});

/** Cells that ecCodes' nearest search and GDAL give: city, then i, j on NDFD, NBM and HRRR. */
describe('cells of cities', () => {
  const cities: [string, number, number, number[]][] = [
    ['Houston', 29.7604, -95.3698, [1074, 313, 1274, 313, 968, 205]],
    ['Denver', 39.7392, -104.9903, [740, 770, 940, 770, 686, 584]],
    ['Atlanta', 33.749, -84.388, [1479, 504, 1679, 504, 1303, 382]],
    ['San Diego', 32.7157, -117.1611, [268, 510, 468, 510, 288, 380]],
    ['Seattle', 47.6062, -122.3321, [215, 1210, 415, 1210, 278, 952]],
    ['Miami', 25.7617, -80.1918, [1671, 169, 1871, 169, 1487, 109]],
    ['Portland ME', 43.6591, -70.2553, [1913, 1012, 2113, 1012, 1622, 828]],
    ['New Orleans', 29.9511, -90.0715, [1276, 324, 1476, 324, 1140, 221]],
  ];

  it.each(cities)('%s', (_, latDeg, lonDeg, cells) => {
    const found = [NDFD, NBM, HRRR].flatMap((grid) => {
      const { i, j } = locatorOf(grid).toCell(latDeg, lonDeg);
      return [Math.round(i), Math.round(j)];
    });
    expect(found).toEqual(cells);
  });
});

describe('Snyder 1987, appendix A', () => {
  const clarke: Earth = { majorM: 6_378_206.4, minorM: 6_378_206.4 * Math.sqrt(1 - 0.00676866) };
  const international: Earth = { majorM: 6_378_388, minorM: 6_378_388 * Math.sqrt(1 - 0.00672267) };

  it('Lambert conformal on the Clarke ellipsoid, p. 296: differences from the origin at 23 degrees', () => {
    const projection = projectionOf({ ...NDFD, earth: clarke, orientationDeg: -96, cutsDeg: [33, 45] });
    const [point, origin] = [projection.forward(35, -75), projection.forward(23, -96)];
    expect((point.xM - origin.xM).toFixed(1)).toBe('1894410.9');
    expect((point.yM - origin.yM).toFixed(1)).toBe('1564649.5');
  });

  it('Mercator on the Clarke ellipsoid, p. 267', () => {
    // The middle of a grid of one column is its first point.
    const projection = projectionOf(mercatorAt(-180, 0, clarke));
    const point = projection.forward(35, -75);
    expect(point.xM.toFixed(1)).toBe('11688673.7');
    expect(point.yM.toFixed(1)).toBe('4139145.7');
  });

  it('polar stereographic on the International ellipsoid, p. 314', () => {
    const projection = projectionOf(polarAt(-100, -71, true, international));
    const point = projection.forward(-75, 150);
    expect(point.xM.toFixed(1)).toBe('-1540033.6');
    expect(point.yM.toFixed(1)).toBe('-560526.4');
  });
});

function mercatorAt(lonDeg: number, trueLatDeg: number, earth: Earth): MercatorGrid {
  return {
    ...base,
    kind: 'mercator',
    earth,
    ni: 1,
    firstLatDeg: 0,
    firstLonDeg: lonDeg,
    stepXM: 2500,
    stepYM: 2500,
    trueLatDeg,
  };
}

function polarAt(lonDeg: number, trueLatDeg: number, southPole: boolean, earth: Earth): PolarGrid {
  const side = southPole ? -1 : 1;
  return {
    ...base,
    kind: 'polar-stereographic',
    earth,
    firstLatDeg: side * 40,
    firstLonDeg: lonDeg - 20,
    stepXM: 5953.125,
    stepYM: 5953.125,
    trueLatDeg,
    orientationDeg: lonDeg,
    southPole,
  };
}

const earths = fc.constantFrom(
  sphere(6_371_200),
  sphere(6_367_470),
  { majorM: 6_378_137, minorM: 6_356_752.3142 },
  { majorM: 6_378_160, minorM: 6_356_775 },
);

/** A grid, the PROJ string of its plane, and a point that it can hold. */
const planes: fc.Arbitrary<{ grid: PlaneGrid; text: string; latDeg: number; lonDeg: number }> = fc
  .record({
    kind: fc.constantFrom('lambert', 'lambert-south', 'mercator', 'polar', 'polar-south'),
    earth: earths,
    lon0: fc.integer({ min: -179, max: 179 }),
    cuts: fc.tuple(fc.integer({ min: 10, max: 70 }), fc.integer({ min: 10, max: 70 })),
    latDeg: fc.double({ min: 5, max: 85, noNaN: true }),
    awayDeg: fc.double({ min: -175, max: 175, noNaN: true }),
  })
  .map(({ kind, earth, lon0, cuts, latDeg, awayDeg }) => {
    const south = kind.endsWith('south');
    const side = south ? -1 : 1;
    const axes = `+a=${earth.majorM} +b=${earth.minorM} +units=m +no_defs`;
    const at = { latDeg: side * latDeg, lonDeg: lon0 + awayDeg };
    const [first, second] = [side * cuts[0], side * cuts[1]];
    if (kind.startsWith('lambert')) {
      const grid: PlaneGrid = { ...NDFD, earth, orientationDeg: lon0, cutsDeg: [first, second] };
      return {
        grid,
        ...at,
        text: `+proj=lcc +lat_1=${first} +lat_2=${second} +lat_0=${first} +lon_0=${lon0} ${axes}`,
      };
    }
    if (kind === 'mercator') {
      return {
        grid: mercatorAt(lon0, first, earth),
        ...at,
        text: `+proj=merc +lat_ts=${first} +lon_0=${lon0} ${axes}`,
      };
    }
    const text = `+proj=stere +lat_0=${90 * side} +lat_ts=${first} +lon_0=${lon0} ${axes}`;
    return { grid: polarAt(lon0, first, south, earth), ...at, text };
  });

describe('proj4', () => {
  it('agrees on every plane, forward and back', () => {
    fc.assert(
      fc.property(planes, ({ grid, text, latDeg, lonDeg }) => {
        const [x = 0, y = 0] = proj4(text).forward([lonDeg, latDeg]);
        const projection = projectionOf(grid);
        const ours = projection.forward(latDeg, lonDeg);
        const far = 1e-5 + 1e-9 * Math.hypot(x, y);
        expect(Math.abs(ours.xM - x), text).toBeLessThan(far);
        expect(Math.abs(ours.yM - y), text).toBeLessThan(far);
        const back = projection.inverse(ours.xM, ours.yM);
        expect(Math.abs(back.latDeg - latDeg)).toBeLessThan(1e-9);
        expect(Math.abs(((back.lonDeg - lonDeg + 900) % 360) - 180)).toBeLessThan(1e-9);
      }),
      { numRuns: 1000 },
    );
  });

  it('north on the plane turns as the meridians do', () => {
    fc.assert(
      fc.property(planes, ({ grid, latDeg, lonDeg }) => {
        const projection = projectionOf(grid);
        const [here, north] = [projection.forward(latDeg, lonDeg), projection.forward(latDeg + 1e-4, lonDeg)];
        const turned = (Math.atan2(north.xM - here.xM, north.yM - here.yM) * 180) / Math.PI;
        // East of the grid's own meridian north lies to the left of the y axis.
        const difference = ((turned + projection.turnDeg(lonDeg) + 900) % 360) - 180;
        expect(Math.abs(difference)).toBeLessThan(1e-3);
      }),
      { numRuns: 500 },
    );
  });
});
