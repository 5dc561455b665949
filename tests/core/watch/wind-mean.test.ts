import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleBetweenDeg, vectorMeanWind } from '#core/units/direction.ts';
import { hourlySigmaDeg, windMean, yamartinoSigmaDeg } from '#core/watch/wind-mean.ts';

const exactSdDeg = (resultant: number) => (Math.sqrt(-2 * Math.log(resultant)) * 180) / Math.PI;

/** Mean, resultant length, Yamartino's sigma, exact circular standard deviation. */
type Row = readonly [readonly number[], number, number, number, number];

// Computed apart from this program by the definition of Mardia and Jupp (Directional Statistics) and Yamartino 1984
// (Journal of Climate and Applied Meteorology 23), sigma = asin(e)(1 + 0.1547 e³), e = √(1 − R²).
const ROWS: readonly Row[] = [
  [[350, 10], 360, 0.9848, 10.0081, 10.0256],
  [[0, 360], 360, 1, 0, 0],
  [[355, 5, 15], 5, 0.9899, 8.1651, 8.1754],
  [[350, 0, 10, 20, 30], 10, 0.9698, 14.1486, 14.1893],
  [[10, 20, 30, 40], 25, 0.9811, 11.1815, 11.2046],
  [[30, 60, 90], 60, 0.9107, 24.6661, 24.7846],
  [[0, 90], 45, Math.SQRT1_2, 47.4613, 47.7019],
  [[0, 0, 90], 26.5651, 0.7454, 43.7268, 43.9271],
  [[90, 180, 270], 180, 0.3333, 79.6726, 84.9298],
];

describe('the mean of directions', () => {
  it.each(ROWS)('of %j is %d, with length %d', (directions, mean, resultant, sigma, exact) => {
    const found = windMean(directions);
    expect(found.count).toBe(directions.length);
    expect(found.fromDeg).toBeCloseTo(mean, 4);
    expect(found.resultant).toBeCloseTo(resultant, 4);
    expect(yamartinoSigmaDeg(found.resultant)).toBeCloseTo(sigma, 3);
    expect(exactSdDeg(found.resultant)).toBeCloseTo(exact, 3);
  });

  it.each([[[0, 180]], [[0, 90, 180, 270]]])('of %j is undefined', (directions) => {
    const found = windMean(directions);
    expect(found.fromDeg).toBeNull();
    expect(found.resultant).toBeLessThan(1e-12);
    // A uniform circle: 180/√3.
    expect(yamartinoSigmaDeg(found.resultant)).toBeCloseTo(103.923, 3);
  });

  it('of nothing is nothing, and no number (weewx issue 849: an hour without any gave 90)', () => {
    expect(windMean([])).toEqual({ fromDeg: null, resultant: 0, count: 0 });
    expect(windMean([Number.NaN, Number.NaN])).toEqual({ fromDeg: null, resultant: 0, count: 0 });
  });

  it('leaves out what is no number', () => {
    expect(windMean([Number.NaN, 90, Number.POSITIVE_INFINITY])).toEqual({
      fromDeg: expect.closeTo(90, 9),
      resultant: 1,
      count: 1,
    });
  });

  it('goes over north the short way (rob42/freeboard-server issue 28)', () => {
    expect(windMean([359, 1]).fromDeg).toBe(360);
    expect(windMean([340, 20, 0]).fromDeg).toBe(360);
  });

  it('is undefined below a length of 0.2, and weak above it', () => {
    // Five of eight from one side, three from the other: length 0.25; with one to one more 0.2.
    expect(windMean([90, 90, 90, 90, 90, 270, 270, 270]).fromDeg).toBeCloseTo(90, 9);
    expect(windMean([90, 90, 90, 90, 90, 270, 270, 270, 270]).fromDeg).toBeNull();
  });

  it('of some that have a direction among others that have none is shorter', () => {
    expect(windMean([90, 90], 0.2, 4).resultant).toBeCloseTo(0.5, 12);
    expect(windMean([90], 0.2, 6).fromDeg).toBeNull();
  });

  it('never has a length above 1, whatever the rounding, and its sigma is a number', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.integer({ min: 1, max: 200 }),
        (deg, n) => {
          const { resultant } = windMean(Array.from({ length: n }, () => deg));
          expect(resultant).toBeLessThanOrEqual(1);
          expect(yamartinoSigmaDeg(resultant)).toBeLessThan(0.01);
        },
      ),
    );
    expect(yamartinoSigmaDeg(1 + 1e-15)).toBe(0);
    expect(yamartinoSigmaDeg(-1e-15)).toBeCloseTo(103.923, 3);
  });

  const directionsArb = fc.array(fc.integer({ min: 0, max: 360 }), { minLength: 1, maxLength: 40 });

  it('turns with the wind: every direction turned by an angle turns the mean by it', () => {
    fc.assert(
      fc.property(directionsArb, fc.double({ min: -720, max: 720, noNaN: true }), (directions, by) => {
        const was = windMean(directions);
        const is = windMean(directions.map((deg) => deg + by));
        expect(is.resultant).toBeCloseTo(was.resultant, 9);
        if (was.fromDeg === null || is.fromDeg === null) return;
        expect(angleBetweenDeg(was.fromDeg + by, is.fromDeg)).toBeLessThan(1e-6);
      }),
    );
  });

  it('does not depend on the order', () => {
    fc.assert(
      fc.property(directionsArb, (directions) => {
        const was = windMean(directions);
        const is = windMean([...directions].reverse());
        expect(is.resultant).toBeCloseTo(was.resultant, 9);
        if (was.resultant < 0.21) return;
        expect(angleBetweenDeg(was.fromDeg ?? -1, is.fromDeg ?? -1)).toBeLessThan(1e-6);
      }),
    );
  });

  it('is as observers write it: never 0, never above 360', () => {
    fc.assert(
      fc.property(directionsArb, (directions) => {
        const { fromDeg } = windMean(directions);
        if (fromDeg !== null) expect(fromDeg > 0 && fromDeg <= 360).toBe(true);
      }),
    );
  });
});

describe('the sigma of an hour', () => {
  it('is the root mean square of its quarters (EPA-454/R-99-005, 6.2.1; computed)', () => {
    expect(hourlySigmaDeg([10, 12, 8, 14])).toBeCloseTo(11.225, 4);
    expect(hourlySigmaDeg([])).toBeNull();
  });
});

// Computed by components apart from this program.
describe('the mean by vectors, weighted by speed', () => {
  it.each([
    [
      [
        [0, 5],
        [90, 5],
      ],
      45,
      3.5355,
    ],
    [
      [
        [180, 8],
        [315, 14],
      ],
      280.8618,
      5.04,
    ],
  ])('of %j', (winds, fromDeg, speed) => {
    const mean = vectorMeanWind(winds.map(([d = 0, s = 0]) => ({ fromDeg: d, speed: s })));
    expect(mean.fromDeg).toBeCloseTo(fromDeg, 3);
    expect(mean.speed).toBeCloseTo(speed, 3);
  });

  it('of two that cancel is calm, not a wind from 180 with a speed of dust', () => {
    expect(
      vectorMeanWind([
        { fromDeg: 270, speed: 10 },
        { fromDeg: 90, speed: 10 },
      ]),
    ).toEqual({ speed: 0, fromDeg: 0 });
  });
});

// Arithmetic; 45 is a shift by AFMAN 15-111, 7.4.5.
describe('the angle between two directions', () => {
  it.each([
    [350, 10, 20],
    [10, 350, 20],
    [0, 360, 0],
    [359, 1, 2],
    [90, 135, 45],
    [0, 180, 180],
    [90, 134.9, 44.9],
  ])('%d to %d is %d', (a, b, between) => {
    expect(angleBetweenDeg(a, b)).toBeCloseTo(between, 9);
  });
});
