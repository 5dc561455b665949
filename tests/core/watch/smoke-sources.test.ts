// Distances and bearings are held against GeographicLib (Karney 2013, doi 10.1007/s00190-012-0578-z; geographiclib-geodesic
// 2.2.0) on the ellipsoid: a sphere is at most 0.56 % off in length.

import fc from 'fast-check';
import geographiclib from 'geographiclib-geodesic';
import { describe, expect, it } from 'vitest';
import type { Place } from '#core/site/site.ts';
import { angleBetweenDeg, wrapDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { NO_SMOKE, type Smoke } from '#core/watch/smoke.ts';
import {
  AT_THE_PIT_M,
  type BurningPit,
  DRIFT_MPS,
  momentsOf,
  REACH_M,
  seenAfterCoverMs,
  smokeSources,
} from '#core/watch/smoke-sources.ts';

const SEED = 20_261_130;
const RUNS = { seed: SEED, numRuns: 300 };
const WGS84 = geographiclib.Geodesic.WGS84;

/** Evenly over the span: `fc.double` gives mostly what is next to nothing. */
const evenly = (min: number, max: number) =>
  fc.integer({ min: Math.ceil(min * 1e4), max: Math.floor(max * 1e4) }).map((n) => n / 1e4);

const SOURCE = { kind: 'observed', station: 'mast', atMs: 0 } as const;
const toward = (towardDeg: number, halfWidthDeg = 20): Smoke => ({
  kind: 'toward',
  towardDeg: wrapDeg(towardDeg),
  halfWidthDeg,
  speedMps: 4,
  source: SOURCE,
});
const blind = (kind: 'calm' | 'variable' | 'light' | 'stale' | 'missing'): Smoke => ({ ...NO_SMOKE, kind });
const PIT: Place = { latDeg: 36.5, lonDeg: -120.2 };
const pit = (smokes: readonly Smoke[], more: Partial<BurningPit> = {}): BurningPit => ({
  id: 'a',
  place: PIT,
  coveredAtMs: null,
  smokes,
  ...more,
});
/** The place so far off in a direction, on the ellipsoid. */
const off = (from: Place, azimuthDeg: number, distanceM: number): Place => {
  const { lat2, lon2 } = WGS84.Direct(from.latDeg, from.lonDeg, azimuthDeg, distanceM);
  return { latDeg: lat2 ?? Number.NaN, lonDeg: lon2 ?? Number.NaN };
};
const NE = off(PIT, 45, 5000);
const classOf = (at: Place, pits: readonly BurningPit[]) => {
  const { covers, cannotExclude, outside, beyond } = smokeSources(at, pits);
  return { covers: ids(covers), cannotExclude: ids(cannotExclude), outside: ids(outside), beyond };
};
const ids = (pits: readonly { id: string }[]) => pits.map(({ id }) => id);

describe('a smoke seen somewhere', () => {
  it('may be of a burn whose sector covers the place, its edge included', () => {
    const bearingDeg = smokeSources(NE, [pit([toward(45)])]).covers[0]?.bearingDeg ?? Number.NaN;
    expect(classOf(NE, [pit([toward(bearingDeg + 20)])]).covers).toEqual(['a']);
    expect(classOf(NE, [pit([toward(bearingDeg + 20.01)])]).outside).toEqual(['a']);
    expect(classOf(NE, [pit([toward(225)])]).outside).toEqual(['a']);
  });

  it.each(['calm', 'variable', 'light', 'stale', 'missing'] as const)('%s excludes nothing', (kind) => {
    const { cannotExclude } = smokeSources(NE, [pit([blind(kind)])]);
    expect(cannotExclude).toMatchObject([{ id: 'a', why: kind, besideDeg: null }]);
  });

  it('no wind at all excludes nothing', () => {
    expect(smokeSources(NE, [pit([])]).cannotExclude).toMatchObject([{ why: 'missing', smoke: null }]);
  });

  it('goes by the winds before, too: what turned away since may still hang there', () => {
    expect(classOf(NE, [pit([toward(225), toward(45)])]).covers).toEqual(['a']);
    expect(classOf(NE, [pit([toward(225), blind('calm')])]).cannotExclude).toEqual(['a']);
  });

  it('excludes nothing farther off than the slowest of the hour before has come: earlier winds took it there', () => {
    // 1.5 m/s over an hour is 5400 m; a wind of 1 m/s comes no farther than 3600 m.
    const why = (distanceM: number, speedMps: number) => {
      const slow: Smoke = { ...toward(225), speedMps };
      const found = smokeSources(off(PIT, 45, distanceM), [pit([toward(225), slow])]);
      return [...found.cannotExclude, ...found.outside].map((one) => [one.why, one.smoke?.kind]);
    };
    expect(why(5350, 5)).toEqual([['outside', 'toward']]);
    expect(why(5450, 5)).toEqual([['earlier-wind', 'toward']]);
    expect(why(60_000, 5)).toEqual([['earlier-wind', 'toward']]);
    expect(why(3560, 1)).toEqual([['outside', 'toward']]);
    expect(why(3640, 1)).toEqual([['earlier-wind', 'toward']]);
  });

  it('looks after the cover for as long as the pit smokes on and the smoke drifts', () => {
    expect(seenAfterCoverMs(0)).toBe(2 * HOUR_MS);
    expect(seenAfterCoverMs(5400)).toBe(3 * HOUR_MS);
  });

  it('says of what goes elsewhere by how much', () => {
    const { outside } = smokeSources(NE, [pit([toward(180), toward(120)])]);
    expect(outside[0]?.besideDeg).toBeCloseTo(75, 0);
  });

  it('a covered pit is not the likeliest, and not excluded either', () => {
    const covered = pit([toward(45)], { coveredAtMs: 5 });
    expect(smokeSources(NE, [covered]).cannotExclude).toMatchObject([{ why: 'covered' }]);
    expect(classOf(NE, [pit([toward(225)], { coveredAtMs: 5 })]).outside).toEqual(['a']);
  });

  it('at the pit no direction counts', () => {
    const at = off(PIT, 45, AT_THE_PIT_M - 10);
    expect(smokeSources(at, [pit([toward(225)])]).covers).toMatchObject([{ why: 'at-the-pit' }]);
    expect(smokeSources(PIT, [pit([])]).covers).toMatchObject([{ distanceM: 0 }]);
  });

  it('ranks by distance, and at the edge of a sector as from twice as far', () => {
    const far = pit([toward(45)], { id: 'far', place: off(NE, 225, 7500) });
    const atEdge = pit([toward(63)], { id: 'edge' });
    const near = pit([toward(45)], { id: 'near', place: off(NE, 225, 3000) });
    expect(classOf(NE, [atEdge, far, near]).covers).toEqual(['near', 'far', 'edge']);
  });

  it('beyond the reach it is only counted', () => {
    const distant = pit([], { place: off(NE, 10, REACH_M * 1.02) });
    expect(classOf(NE, [distant])).toEqual({ covers: [], cannotExclude: [], outside: [], beyond: 1 });
  });

  it('goes by no wind from before the pit was lit', () => {
    const at = 1_000_000_000_000;
    expect(momentsOf(at, at - 45 * MINUTE_MS)).toEqual([at, at - 30 * MINUTE_MS]);
    expect(momentsOf(at, at + 1)).toEqual([at]);
  });
});

const placeArb = fc.record({
  latDeg: evenly(-89, 89),
  lonDeg: evenly(-180, 180),
});
const towardArb = fc.record({
  towardDeg: evenly(0, 359.9),
  halfWidthDeg: evenly(10, 89),
});
const smokesArb = fc.array(
  fc.oneof(
    towardArb.map(({ towardDeg, halfWidthDeg }) => toward(towardDeg, halfWidthDeg)),
    fc.constantFrom('calm' as const, 'variable' as const, 'light' as const, 'missing' as const).map(blind),
  ),
  { maxLength: 3 },
);

describe('laws of the answer', () => {
  it('what is missing never excludes: a burn within reach is outside only where every wind is known', () => {
    let outside = 0;
    fc.assert(
      fc.property(
        smokesArb,
        fc.nat(2),
        evenly(0, 360),
        fc.oneof(evenly(600, 5000), evenly(600, 150_000)),
        (smokes, lost, azimuthDeg, distanceM) => {
          const at = off(PIT, azimuthDeg, distanceM);
          const before = classOf(at, [pit(smokes)]);
          if (before.outside.length > 0) {
            outside += 1;
            // A sphere is at most 0.56 % off.
            expect(distanceM).toBeLessThan(DRIFT_MPS * 3600 * 1.006);
            expect(smokes.length).toBeGreaterThan(0);
            expect(smokes.every(({ kind }) => kind === 'toward')).toBe(true);
          }
          const spoiled = smokes.map((smoke, i) => (i === lost ? NO_SMOKE : smoke));
          const after = classOf(at, [pit(lost < smokes.length ? spoiled : [])]);
          expect(after.outside).toEqual([]);
        },
      ),
      RUNS,
    );
    expect(outside).toBeGreaterThan(20);
  });

  it('where north lies does not matter: all turned about the pit by an angle, the answer is the same', () => {
    let judged = 0;
    fc.assert(
      fc.property(
        placeArb,
        smokesArb,
        evenly(0, 360),
        evenly(0, 360),
        evenly(600, 100_000),
        (place, smokes, azimuthDeg, byDeg, distanceM) => {
          // At an edge a thousandth of a degree decides, or a metre; such a case says nothing.
          const isAtReach = Math.abs(distanceM / (DRIFT_MPS * 3600) - 1) < 0.01;
          const isAtEdge = smokes.some(
            (s) =>
              s.kind === 'toward' &&
              Math.abs(angleBetweenDeg(s.towardDeg, azimuthDeg) - s.halfWidthDeg) < 0.4,
          );
          if (isAtEdge || isAtReach) return;
          judged += 1;
          const turned = smokes.map((s) =>
            s.kind === 'toward' ? { ...s, towardDeg: wrapDeg(s.towardDeg + byDeg) } : s,
          );
          const plain = classOf(off(place, azimuthDeg, distanceM), [pit(smokes, { place })]);
          const after = classOf(off(place, azimuthDeg + byDeg, distanceM), [pit(turned, { place })]);
          expect(after).toEqual(plain);
        },
      ),
      RUNS,
    );
    expect(judged).toBeGreaterThan(150);
  });

  it.each<readonly [string, Place, Place]>([
    ['over the antimeridian', { latDeg: 51.9, lonDeg: 179.9 }, { latDeg: 51.95, lonDeg: -179.9 }],
    ['in the far north', { latDeg: 71.29, lonDeg: -156.79 }, { latDeg: 71.6, lonDeg: -155.2 }],
    ['beside the pole', { latDeg: 89.9, lonDeg: 10 }, { latDeg: 89.9, lonDeg: -160 }],
    ['over the equator', { latDeg: -0.2, lonDeg: -78.5 }, { latDeg: 0.3, lonDeg: -78.1 }],
    ['in the valley', PIT, NE],
  ])('distance and bearing agree with GeographicLib %s', (_, from, to) => {
    const { s12, azi1, azi2 } = WGS84.Inverse(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
    const [found] = smokeSources(to, [pit([], { place: from })]).cannotExclude;
    expect(Math.abs((found?.distanceM ?? 0) / (s12 ?? Number.NaN) - 1)).toBeLessThan(0.0056);
    expect(angleBetweenDeg(found?.bearingDeg ?? Number.NaN, azi1 ?? Number.NaN)).toBeLessThan(0.3);
    expect(angleBetweenDeg(found?.backBearingDeg ?? Number.NaN, (azi2 ?? Number.NaN) + 180)).toBeLessThan(
      0.3,
    );
  });

  it('agrees with GeographicLib on any two places within reach', () => {
    fc.assert(
      fc.property(placeArb, evenly(0, 360), evenly(600, 150_000), (from, azimuthDeg, distanceM) => {
        const { cannotExclude } = smokeSources(off(from, azimuthDeg, distanceM), [pit([], { place: from })]);
        const [found] = cannotExclude;
        expect(Math.abs((found?.distanceM ?? 0) / distanceM - 1)).toBeLessThan(0.0068);
        expect(angleBetweenDeg(found?.bearingDeg ?? Number.NaN, azimuthDeg)).toBeLessThan(0.4);
      }),
      RUNS,
    );
  });
});
