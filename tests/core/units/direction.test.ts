import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  angleBetweenDeg,
  bearingAndDistance,
  compassPoint,
  downwindDeg,
  inSector,
  vectorMeanWind,
  windComponents,
  wrapDeg,
} from '#core/units/direction.ts';

describe('the angle between two directions', () => {
  // docs/sources.md J.3 row 63.
  it.each([
    [350, 40, 50],
    [10, 340, 30],
    [180, 225, 45],
    [315, 0, 45],
    [90, 270, 180],
    [360, 0, 0],
    [0, 360, 0],
    [359, 1, 2],
  ])('from %d to %d is %d degrees', (a, b, expected) => {
    expect(angleBetweenDeg(a, b)).toBeCloseTo(expected, 9);
    expect(angleBetweenDeg(b, a)).toBeCloseTo(expected, 9);
  });

  it('lies within 0 and 180, is the same both ways and under turning', () => {
    const deg = fc.double({ min: -720, max: 720, noNaN: true });
    fc.assert(
      fc.property(deg, deg, deg, (a, b, turn) => {
        const angle = angleBetweenDeg(a, b);
        expect(angle).toBeGreaterThanOrEqual(0);
        expect(angle).toBeLessThanOrEqual(180);
        expect(angleBetweenDeg(b, a)).toBeCloseTo(angle, 6);
        expect(angleBetweenDeg(a + turn, b + turn)).toBeCloseTo(angle, 6);
      }),
    );
  });
});

describe('wrapping', () => {
  it.each([
    [360, 0],
    [-10, 350],
    [725, 5],
    [-360, 0],
    [0, 0],
  ])('%d becomes %d', (deg, expected) => {
    expect(wrapDeg(deg)).toBe(expected);
  });

  it('never gives 360, not even for an angle a hair below zero', () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (deg) => {
        expect(wrapDeg(deg)).toBeGreaterThanOrEqual(0);
        expect(wrapDeg(deg)).toBeLessThan(360);
      }),
      { examples: [[-1e-17]] },
    );
  });

  it('smoke of a west wind drifts east, of a north wind south, whichever way north is written', () => {
    expect([270, 0, 360, 225].map(downwindDeg)).toEqual([90, 180, 180, 45]);
  });
});

describe('a sector seen from the pit', () => {
  const cases: [string, number, number, number, number, boolean][] = [
    ['its first edge', 80, 80, 140, 0, true],
    ['its last edge', 140, 80, 140, 0, true],
    ['inside', 100, 80, 140, 0, true],
    ['one degree before', 79, 80, 140, 0, false],
    ['one degree after', 141, 80, 140, 0, false],
    ['the margin before', 60, 80, 140, 20, true],
    ['the margin after', 160, 80, 140, 20, true],
    ['one degree before the margin', 59, 80, 140, 20, false],
    ['one degree after the margin', 161, 80, 140, 20, false],
    ['north inside a sector over north', 0, 350, 10, 0, true],
    ['360 inside a sector over north', 360, 350, 10, 0, true],
    ['south of a sector over north', 180, 350, 10, 0, false],
    ['the long way round, clockwise', 200, 140, 80, 0, true],
    ['the short way, counter-clockwise', 100, 140, 80, 0, false],
    ['a single bearing with its margin', 100, 90, 90, 20, true],
    ['a single bearing without one', 91, 90, 90, 0, false],
    ['margins that meet behind', 270, 0, 180, 90, true],
    ['the first edge of a sector from 0, written 360', 360, 0, 40, 0, true],
  ];
  it.each(cases)('%s', (_, bearing, from, to, margin, expected) => {
    expect(inSector(bearing, from, to, margin)).toBe(expected);
  });

  it('from 0 to 360 is the whole circle, not north alone', () => {
    for (let bearing = 0; bearing < 360; bearing += 10)
      expect(inSector(bearing, 0, 360, 0), `bearing ${bearing}`).toBe(true);
  });

  it('a wider margin never leaves out what a narrower one held', () => {
    const deg = fc.integer({ min: 0, max: 360 });
    fc.assert(
      fc.property(deg, deg, deg, fc.integer({ min: 0, max: 90 }), (bearing, from, to, margin) => {
        if (inSector(bearing, from, to, margin)) expect(inSector(bearing, from, to, margin + 5)).toBe(true);
      }),
    );
  });
});

describe('wind by vectors', () => {
  it('components follow the direction that the wind comes from (J.3 row 66)', () => {
    const west = windComponents(10, 270);
    expect(west.u).toBeCloseTo(10, 9);
    expect(west.v).toBeCloseTo(0, 9);
    const north = windComponents(10, 360);
    expect(north.u).toBeCloseTo(0, 9);
    expect(north.v).toBeCloseTo(-10, 9);
  });

  // J.3 rows 64 and 65; W34 of the second pass for the unweighted mean of three.
  it.each([
    [
      [
        [10, 350],
        [10, 10],
      ],
      9.848,
      360,
    ],
    [
      [
        [10, 90],
        [10, 180],
      ],
      7.071,
      135,
    ],
    [
      [
        [5, 180],
        [10, 200],
        [15, 220],
      ],
      9.665,
      206.77,
    ],
  ])('the mean of %j', (winds, speed, fromDeg) => {
    const mean = vectorMeanWind(winds.map(([s = 0, d = 0]) => ({ speed: s, fromDeg: d })));
    expect(Math.abs(mean.speed - speed)).toBeLessThan(0.001);
    expect(Math.abs(mean.fromDeg - fromDeg)).toBeLessThan(0.01);
  });

  it('opposite winds and no winds at all are calm', () => {
    expect(
      vectorMeanWind([
        { speed: 5, fromDeg: 0 },
        { speed: 5, fromDeg: 180 },
      ]),
    ).toEqual({ speed: 0, fromDeg: 0 });
    expect(vectorMeanWind([])).toEqual({ speed: 0, fromDeg: 0 });
  });

  it('a mean of one wind is that wind, in all four quadrants', () => {
    for (const fromDeg of [45, 135, 225, 315, 360]) {
      const mean = vectorMeanWind([{ speed: 8, fromDeg }]);
      expect(mean.speed).toBeCloseTo(8, 9);
      expect(mean.fromDeg).toBeCloseTo(fromDeg, 9);
    }
  });
});

describe('compass names', () => {
  it('change half way between the sixteen points', () => {
    expect([0, 11.2, 11.3, 45, 180, 270, 348.7, 348.8, 360].map(compassPoint)).toEqual([
      'N',
      'N',
      'NNE',
      'NE',
      'S',
      'W',
      'NNW',
      'N',
      'N',
    ]);
  });
});

describe('bearing and distance between two places', () => {
  // One degree of a great circle on the mean Earth radius R1 = 6,371,008.8 m (Moritz 2000, Geodetic Reference System 1980).
  const DEGREE_M = (6_371_008.8 * Math.PI) / 180;

  it.each([
    ['north', 41, -90, 0],
    ['south', 39, -90, 180],
  ])('one degree %s along a meridian', (_, latDeg, lonDeg, bearing) => {
    const found = bearingAndDistance({ latDeg: 40, lonDeg: -90 }, { latDeg, lonDeg });
    expect(found.bearingDeg).toBeCloseTo(bearing, 6);
    expect(found.distanceM).toBeCloseTo(DEGREE_M, 3);
  });

  it('one degree east and west along the equator, also over the date line', () => {
    const east = bearingAndDistance({ latDeg: 0, lonDeg: 179.5 }, { latDeg: 0, lonDeg: -179.5 });
    expect(east.bearingDeg).toBeCloseTo(90, 6);
    expect(east.distanceM).toBeCloseTo(DEGREE_M, 3);
    expect(
      bearingAndDistance({ latDeg: 0, lonDeg: 0.5 }, { latDeg: 0, lonDeg: -0.5 }).bearingDeg,
    ).toBeCloseTo(270, 6);
  });

  it('is a number even for the far side of the Earth', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -89, max: 89, noNaN: true }),
        fc.double({ min: -180, max: 0, noNaN: true }),
        (latDeg, lonDeg) => {
          const far = bearingAndDistance({ latDeg, lonDeg }, { latDeg: -latDeg, lonDeg: lonDeg + 180 });
          expect(Math.abs(far.distanceM - 6_371_008.8 * Math.PI)).toBeLessThan(1);
        },
      ),
    );
  });
});
