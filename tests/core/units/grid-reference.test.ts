// Against the package mgrs 2.2.0 (proj4js), which cuts off as the standard does, and an example of GeoConvert's manual
// (GeographicLib, from memory): 33.3, 44.4 is easting 444140.54, northing 3684706.36 in zone 38 north.

import fc from 'fast-check';
import { forward } from 'mgrs';
import { describe, expect, it } from 'vitest';
import { gridReference } from '#core/units/grid-reference.ts';

describe('a grid reference', () => {
  it.each([[33.3, 44.4, '38S MB 4414 8470']])('of %f, %f', (latDeg, lonDeg, expected) => {
    expect(gridReference({ latDeg, lonDeg })).toBe(expected);
  });

  it('agrees with another implementation to its last digit', () => {
    const degrees = (most: number) =>
      fc.integer({ min: Math.ceil(-most * 1e5), max: Math.floor(most * 1e5) }).map((n) => n / 1e5);
    let same = 0;
    fc.assert(
      fc.property(degrees(79.9), degrees(179.99), (latDeg, lonDeg) => {
        const [, zone, square, east, north] =
          /^(\d+\w)(\w\w)(\d{5})(\d{5})$/.exec(forward([lonDeg, latDeg], 5)) ?? [];
        const [ownZone, ownSquare, ownEast, ownNorth] = (gridReference({ latDeg, lonDeg }) ?? '').split(' ');
        // That one is good to a metre: where it stands within one of a border of ten, either is right.
        const isAtBorder = [east, north].some((text) => [0, 1, 8, 9].includes(Number(text) % 10));
        if (isAtBorder) return;
        same += 1;
        expect([ownZone, ownSquare, ownEast, ownNorth]).toEqual([
          zone,
          square,
          east?.slice(0, 4),
          north?.slice(0, 4),
        ]);
      }),
      { seed: 20_261_130, numRuns: 3000 },
    );
    expect(same).toBeGreaterThan(800);
  });

  it('is none where the grid is another', () => {
    expect(gridReference({ latDeg: 84.1, lonDeg: 0 })).toBeNull();
    expect(gridReference({ latDeg: -80.1, lonDeg: 0 })).toBeNull();
    expect(gridReference({ latDeg: Number.NaN, lonDeg: 0 })).toBeNull();
  });
});
