// A field read at places: nearest cell, between cells, directions as vectors, wind from components.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeField, gridOf } from '#sources/grib/field.ts';
import type { Grid, LambertGrid, LatLonGrid } from '#sources/grib/grid/grid.ts';
import { locatorOf } from '#sources/grib/grid/locate.ts';
import { SimdKernel } from '#sources/grib/kernel/simd.ts';
import {
  bilinearDirectionDeg,
  bilinearValue,
  type GridPlace,
  nearestValue,
  placeOn,
} from '#sources/grib/sample.ts';
import { windFrom } from '#sources/grib/wind.ts';
import { cityFigures, describeReal, realFields } from './real-files.ts';

const scanning = { fromEast: false, fromSouth: true, byColumn: false, turns: false };
const EARTH = { majorM: 6_371_229, minorM: 6_371_229 };
const HRRR: LambertGrid = {
  kind: 'lambert',
  ni: 60,
  nj: 50,
  scanning,
  earth: EARTH,
  gridRelative: true,
  firstLatDeg: 33,
  firstLonDeg: 245,
  orientationDeg: 262.5,
  cutsDeg: [38.5, 38.5],
  stepXM: 3000,
  stepYM: 3000,
};
const WORLD: LatLonGrid = {
  kind: 'lat-lon',
  ni: 144,
  nj: 73,
  scanning,
  earth: EARTH,
  gridRelative: false,
  westDeg: 0,
  southDeg: -90,
  stepEastDeg: 2.5,
  stepNorthDeg: 2.5,
};
const ISLANDS: LatLonGrid = { ...WORLD, ni: 9, nj: 5, westDeg: 170, southDeg: 10 };

function fieldOf(grid: Grid, value: (i: number, j: number) => number): Float32Array {
  return Float32Array.from({ length: grid.ni * grid.nj }, (_, n) =>
    value(n % grid.ni, Math.floor(n / grid.ni)),
  );
}

function at(grid: Grid, i: number, j: number): GridPlace {
  const { latDeg, lonDeg } = locatorOf(grid).toEarth(i, j);
  const place = placeOn(grid, latDeg, lonDeg);
  if (!place) throw new Error(`outside: ${i}, ${j}`);
  return place;
}

describeReal('real files', () => {
  const files = ['ds.minrh.bin', 'blend.t00z.core.f001.tmp.co.grib2', 'hrrr.t06z.wrfsfcf01-UGRD.grib2'];

  it.each([0, 1, 2])('eight cities have the cells and values of ecCodes and GDAL, grid %i', (which) => {
    const raw = realFields(files[which] ?? '')[0];
    if (!raw) throw new Error('no field');
    const grid = gridOf(raw);
    const values = decodeField(raw, grid, new SimdKernel());
    for (const { name, latDeg, lonDeg, cells } of cityFigures()) {
      const place = placeOn(grid, latDeg, lonDeg);
      const { index = -1, value = Number.NaN } = cells[which] ?? {};
      expect([name, place?.nearest]).toEqual([name, index]);
      if (!place) continue;
      expect(Math.abs(nearestValue(values, place) - value), name).toBeLessThanOrEqual(5.1e-5);
      const around = place.corners?.map((cell) => values[cell] ?? Number.NaN) ?? [];
      expect(bilinearValue(values, place)).toBeGreaterThanOrEqual(Math.min(...around));
      expect(bilinearValue(values, place)).toBeLessThanOrEqual(Math.max(...around));
    }
  });
});

describe('between cells', () => {
  const insideI = fc.double({ min: 0, max: 59, noNaN: true });
  const insideJ = fc.double({ min: 0, max: 49, noNaN: true });

  it('a plane comes back as it is', () => {
    const values = fieldOf(HRRR, (i, j) => 3 + 0.5 * i - 0.25 * j);
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 58.999, noNaN: true }),
        fc.double({ min: 0.001, max: 48.999, noNaN: true }),
        (i, j) => {
          expect(bilinearValue(values, at(HRRR, i, j))).toBeCloseTo(3 + 0.5 * i - 0.25 * j, 6);
        },
      ),
    );
  });

  it('shares add up to one, and the nearest cell has the largest', () => {
    fc.assert(
      fc.property(insideI, insideJ, (i, j) => {
        const place = at(HRRR, i, j);
        if (!place.corners) return;
        expect(place.shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
        const largest = Math.max(...place.shares);
        expect(place.shares[place.corners.indexOf(place.nearest)]).toBeCloseTo(largest, 9);
      }),
    );
  });

  it('a missing cell makes the value missing, unless it has no share', () => {
    const values = fieldOf(ISLANDS, (i, j) => (i === 4 && j === 2 ? Number.NaN : 7));
    for (const [i, j] of [
      [3.5, 2],
      [4.5, 1.5],
      [4.1, 2.9],
      [4, 2],
    ] as const) {
      expect(bilinearValue(values, at(ISLANDS, i, j))).toBeNaN();
    }
    expect(bilinearValue(values, at(ISLANDS, 5, 2))).toBe(7);
    expect(bilinearValue(values, at(ISLANDS, 5.5, 2))).toBe(7);
  });

  it('no cell holds a place beyond half a cell from the rim; at the rim itself only the nearest is told', () => {
    const values = fieldOf(ISLANDS, () => 7);
    const rim = placeOn(ISLANDS, 10 - 1, 170 - 1);
    expect(rim && nearestValue(values, rim)).toBe(7);
    expect(rim && bilinearValue(values, rim)).toBeNaN();
    for (const [latDeg, lonDeg] of [
      [10 - 1.3, 180],
      [10, 170 - 1.3],
      [20 + 1.3, 180],
      [15, 190 + 1.3],
      [15, 0],
      [-90, 0],
      [Number.NaN, 180],
    ] as const) {
      expect(placeOn(ISLANDS, latDeg, lonDeg)).toBe(null);
    }
    expect(placeOn(HRRR, -90, 0)).toBe(null);
    expect(placeOn(HRRR, 33, 180)).toBe(null);
  });

  it('a grid across the date line, and one that goes round the earth', () => {
    expect(placeOn(ISLANDS, 10, -180)?.nearest).toBe(4);
    expect(placeOn(ISLANDS, 10, -170)?.nearest).toBe(8);
    const values = fieldOf(
      WORLD,
      (i) =>
        new Map([
          [143, 10],
          [0, 20],
        ]).get(i) ?? 0,
    );
    const place = placeOn(WORLD, 0, 358.75);
    expect(place && bilinearValue(values, place)).toBeCloseTo(15, 6);
    expect(placeOn(WORLD, -90, 359)?.nearest).toBe(0);
    expect(placeOn(WORLD, 90, -2.6)?.nearest).toBe(72 * 144 + 143);
  });
});

describe('directions', () => {
  const place = at(ISLANDS, 4.5, 2);
  const between = (west: number, east: number): number =>
    bilinearDirectionDeg(
      fieldOf(ISLANDS, (i) => (i <= 4 ? west : east)),
      place,
    );

  it('350 and 10 degrees meet at north, not at 180', () => {
    const met = between(350, 10);
    expect(Math.min(met, 360 - met)).toBeLessThan(1e-6);
    expect(between(80, 100)).toBeCloseTo(90, 6);
    expect(between(260, 280)).toBeCloseTo(270, 6);
  });

  it('opposite directions make none, and a missing one makes none', () => {
    expect(between(0, 180)).toBeNaN();
    expect(between(90, Number.NaN)).toBeNaN();
  });
});

describe('wind from components', () => {
  const straight = { turnDeg: 0 };

  it.each([
    [0, -5, 0],
    [-5, 0, 90],
    [0, 5, 180],
    [5, 0, 270],
    [-3, -3, 45],
  ])('%d m/s east and %d m/s north come from %d degrees', (u, v, fromDeg) => {
    const wind = windFrom(u, v, straight);
    expect(wind.fromDeg).toBeCloseTo(fromDeg, 9);
    expect(wind.speedMps).toBeCloseTo(Math.hypot(u, v), 9);
  });

  it('is turned where the grid is not north up: n × (longitude - orientation), n = sin 38.5 degrees', () => {
    const grid: LambertGrid = {
      ...HRRR,
      ni: 1799,
      nj: 1059,
      firstLatDeg: 21.138123,
      firstLonDeg: 237.280472,
    };
    for (const { name, lonDeg, latDeg } of [
      { name: 'Seattle', latDeg: 47.6062, lonDeg: -122.3321 },
      { name: 'Portland ME', latDeg: 43.6591, lonDeg: -70.2553 },
    ]) {
      const place = placeOn(grid, latDeg, lonDeg);
      const turnDeg = Math.sin((38.5 * Math.PI) / 180) * (lonDeg + 97.5);
      expect(place?.turnDeg, name).toBeCloseTo(turnDeg, 9);
      // A wind along the grid's own south comes from the grid's north.
      const wind = place && windFrom(0, -4, place);
      expect(wind?.speedMps).toBeCloseTo(4, 9);
      expect((((wind?.fromDeg ?? 0) - turnDeg + 900) % 360) - 180, name).toBeCloseTo(0, 6);
    }
    expect(placeOn({ ...grid, gridRelative: false }, 47.6, -122.3)?.turnDeg).toBe(0);
  });

  it('a calm has no direction, a missing component makes both missing', () => {
    expect(windFrom(0.01, 0, straight)).toEqual({ speedMps: 0.01, fromDeg: Number.NaN });
    expect(windFrom(Number.NaN, 3, straight)).toEqual({ speedMps: Number.NaN, fromDeg: Number.NaN });
  });
});
