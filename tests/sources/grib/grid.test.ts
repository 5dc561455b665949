// Grids as section 3 says them: the four templates, every scanning mode, and where their corners lie.

import { describe, expect, it } from 'vitest';
import type { Grid } from '#sources/grib/grid/grid.ts';
import { locatorOf } from '#sources/grib/grid/locate.ts';
import { readGrid } from '#sources/grib/grid/read-grid.ts';
import { Section } from '#sources/grib/section.ts';
import { cellOfNth } from './encode.ts';
import { lambertSection, latLonSection, mercatorSection, polarSection } from './encode-heads.ts';
import { describeReal, realFields } from './real-files.ts';

const gridFrom = (octets: readonly number[]): Grid => {
  const bytes = Uint8Array.from(octets);
  return readGrid(new Section(bytes, 0, bytes.length, 3));
};

const SCANS = Array.from({ length: 16 }, (_, n) => n << 4);
const SIZE = { ni: 7, nj: 5 };

/** The cell that is sent first lies where the section says that the first point lies. */
function expectFirst(grid: Grid, scan: number, latDeg: number, lonDeg: number): void {
  const first = cellOfNth({ ...SIZE, scan }, 0);
  const { i, j } = locatorOf(grid).toCell(latDeg, lonDeg);
  expect([Math.round(i * 1e6), Math.round(j * 1e6)]).toEqual([
    (first % SIZE.ni) * 1e6,
    Math.floor(first / SIZE.ni) * 1e6,
  ]);
  const back = locatorOf(grid).toEarth(first % SIZE.ni, Math.floor(first / SIZE.ni));
  expect(back.latDeg).toBeCloseTo(latDeg, 8);
  expect(((back.lonDeg - lonDeg + 900) % 360) - 180).toBeCloseTo(0, 8);
}

describe.each(SCANS)('scanning mode %i', (scan) => {
  it('Lambert, polar stereographic and Mercator begin at their first point', () => {
    expectFirst(gridFrom(lambertSection({ ...SIZE, scan })), scan, 21.138123, 237.280472);
    expectFirst(gridFrom(polarSection({ ...SIZE, scan })), scan, 40.530101, 181.429);
    expectFirst(
      gridFrom(polarSection({ ...SIZE, scan }, { lat: -60, trueLat: -70, south: true })),
      scan,
      -60,
      181.429,
    );
    expectFirst(gridFrom(mercatorSection({ ...SIZE, scan })), scan, 16.828685, 291.804687);
    const southern = { lat: -30, lon: 20, orientation: 25, cuts: [-25, -45] };
    const bytes = lambertSection({ ...SIZE, scan }, southern);
    // Octet 64, flag table 3.5: the south pole.
    bytes[63] = 0x80;
    expectFirst(gridFrom(bytes), scan, -30, 20);
  });

  it('latitude and longitude begin at their first point and end at their last', () => {
    const west = scan & 0x80 ? 12 : 357;
    const east = scan & 0x80 ? 357 : 12;
    const [la1, la2] = scan & 0x40 ? [10, 20] : [20, 10];
    const grid = gridFrom(latLonSection({ ...SIZE, scan }, [la1, west], [la2, east], 2.5));
    expect(grid).toMatchObject({
      kind: 'lat-lon',
      westDeg: 357,
      southDeg: 10,
      stepEastDeg: 2.5,
      stepNorthDeg: 2.5,
    });
    expectFirst(grid, scan, la1, west);
  });
});

describe('what a section may not say', () => {
  it('a step that does not lead from the first point to the last', () => {
    expect(() => gridFrom(latLonSection({ ...SIZE, scan: 0x40 }, [10, 0], [20, 15], 1))).toThrow(
      '7 points over 15 degrees, steps of 1',
    );
    expect(() => gridFrom(latLonSection({ ...SIZE, scan: 0x00 }, [10, 0], [20, 15], 2.5))).toThrow(
      '5 points over -10 degrees',
    );
    expect(() => gridFrom(latLonSection({ ...SIZE, scan: 0x40 }, [10, 0], [95, 15], 2.5))).toThrow(
      'a corner at 95 degrees',
    );
  });

  it('a plane at a pole with the first point at the other', () => {
    expect(() => gridFrom(polarSection({ ...SIZE, scan: 0x40 }, { lat: -90 }))).toThrow(
      'a grid at the other pole',
    );
    expect(() => gridFrom(lambertSection({ ...SIZE, scan: 0x40 }, { cuts: [25, -25] }))).toThrow(
      'a cone that cuts at 25 and -25',
    );
    expect(() => gridFrom(mercatorSection({ ...SIZE, scan: 0x40 }, { lat: 90 }))).toThrow();
  });

  it('a whole turn of the earth is read as one', () => {
    const grid = gridFrom(latLonSection({ ni: 144, nj: 73, scan: 0 }, [90, 0], [-90, 357.5], 2.5));
    expect(locatorOf(grid).round).toBe(true);
    expect(locatorOf(grid).toCell(-90, -2.5)).toEqual({ i: 143, j: 0 });
  });
});

describe('shapes of the earth (code table 3.2)', () => {
  it.each([
    [0, 6_367_470, 6_367_470],
    [1, 6_371_200, 6_371_200],
    [2, 6_378_160, 6_356_775],
    [4, 6_378_137, 6_356_752.314],
    [5, 6_378_137, 6_356_752.3142],
    [6, 6_371_229, 6_371_229],
    [8, 6_371_200, 6_371_200],
  ])('shape %i', (shape, majorM, minorM) => {
    expect(gridFrom(polarSection({ ...SIZE, scan: 0x40 }, { shape })).earth).toEqual({ majorM, minorM });
  });

  it('half axes of a message’s own, in kilometres (3) and in metres (7)', () => {
    for (const [shape, factor, axes] of [
      [3, 3, [6_378_160, 6_356_775]],
      [7, 0, [6_378_160, 6_356_775]],
    ] as const) {
      const bytes = polarSection({ ...SIZE, scan: 0x40 }, { shape });
      const view = new DataView(Uint8Array.from(bytes).buffer);
      for (const [octet, axis] of [
        [21, axes[0]],
        [26, axes[1]],
      ] as const) {
        view.setUint8(octet - 1, factor);
        view.setUint32(octet, axis);
      }
      const changed = Array.from(new Uint8Array(view.buffer));
      expect(gridFrom(changed).earth).toEqual({ majorM: axes[0], minorM: axes[1] });
    }
  });
});

describeReal('real grids', () => {
  /** Corners that the NWS publishes for NDFD CONUS and Puerto Rico lie in their files as first points. */
  it.each([
    ['ds.temp.bin', 'lambert', true, 2539.703],
    ['dspr.temp.bin', 'mercator', true, 1250],
    ['blend.t00z.core.f001.tmp.co.grib2', 'lambert', true, 2539.703],
    ['hrrr.t06z.wrfsfcf01-UGRD.grib2', 'lambert', false, 3000],
  ] as const)('%s is %s', (file, kind, turns, stepM) => {
    const [raw] = realFields(file);
    if (!raw) throw new Error('no field');
    const grid = readGrid(raw.grid);
    expect([grid.kind, grid.scanning.turns]).toEqual([kind, turns]);
    if (grid.kind === 'lat-lon') return;
    expect(grid.stepXM).toBe(stepM);
    const first = locatorOf(grid).toCell(grid.firstLatDeg, grid.firstLonDeg);
    expect([first.i, first.j]).toEqual([0, 0]);
  });

  it('the last point that a Mercator file names (octets 52 to 59) lies on its lattice, within two hundredths of a cell', () => {
    const [raw] = realFields('dspr.temp.bin');
    if (!raw) throw new Error('no field');
    const grid = readGrid(raw.grid);
    const last = locatorOf(grid).toCell(raw.grid.s32(52) / 1e6, raw.grid.s32(56) / 1e6);
    expect([grid.ni, grid.nj]).toEqual([339, 224]);
    expect(Math.abs(last.i - 338)).toBeLessThan(0.02);
    // That of 227 rows: the file of 2011 has three fewer, and names the point all the same.
    expect(Math.abs(last.j - 226)).toBeLessThan(0.02);
  });
});
