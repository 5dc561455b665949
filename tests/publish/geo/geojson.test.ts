// Areas of smoke as GeoJSON (RFC 7946), checked by others: the reader @placemarkio/check-geojson for its form, d3-geo for areas and
// which way rings turn, geographiclib for distances on the ellipsoid.

import { check } from '@placemarkio/check-geojson';
import { geoArea, geoContains, geoDistance } from 'd3-geo';
import fc from 'fast-check';
import geodesic from 'geographiclib-geodesic';
import type { GeoJsonObject, MultiPolygon, Polygon, Position } from 'geojson';
import { describe, expect, it } from 'vitest';
import { areaOf, pointAt } from '#publish/geo/geojson.ts';
import { smokeRing } from '#publish/geo/smoke-ring.ts';

const EARTH_M = 6_371_008.8;
const STERADIAN_M2 = EARTH_M ** 2;

const anywhere = fc.record({
  latDeg: fc.double({ min: -72, max: 72, noNaN: true }),
  lonDeg: fc.oneof(
    fc.double({ min: -180, max: 180, noNaN: true }),
    fc.double({ min: 179.5, max: 180, noNaN: true }),
    fc.double({ min: -180, max: -179.5, noNaN: true }),
    fc.constantFrom(180, -180),
  ),
  towardDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  halfWidthDeg: fc.double({ min: 20, max: 89, noNaN: true }),
  reachM: fc.double({ min: 1000, max: 100_000, noNaN: true }),
});

type Sector = typeof anywhere extends fc.Arbitrary<infer T> ? T : never;

const drawn = ({ latDeg, lonDeg, towardDeg, halfWidthDeg, reachM }: Sector) =>
  areaOf(smokeRing({ latDeg, lonDeg }, { towardDeg, halfWidthDeg }, reachM)) as Polygon | MultiPolygon;

const outsides = (area: Polygon | MultiPolygon): Position[][] =>
  (area.type === 'Polygon' ? [area.coordinates] : area.coordinates).map(([ring]) => ring ?? []);

/** d3-geo takes an outside clockwise, against RFC 7946, 3.1.6. */
const forSphere = (area: Polygon | MultiPolygon): GeoJsonObject & MultiPolygon => ({
  type: 'MultiPolygon',
  coordinates: outsides(area).map((ring) => [ring.toReversed()]),
});

describe('the sector of a smoke', () => {
  it('is GeoJSON to another reader, wherever it lies', () => {
    fc.assert(
      fc.property(anywhere, (sector) => {
        const text = JSON.stringify({ type: 'Feature', geometry: drawn(sector), properties: {} });
        expect(() => check(text)).not.toThrow();
      }),
    );
  });

  it('has the area of that part of a cap of the sphere, and not of what is left of it: its rings turn counterclockwise', () => {
    fc.assert(
      fc.property(anywhere, (sector) => {
        const area = geoArea(forSphere(drawn(sector))) * STERADIAN_M2;
        const cap = 2 * Math.PI * STERADIAN_M2 * (1 - Math.cos(sector.reachM / EARTH_M));
        const share = area / ((cap * sector.halfWidthDeg) / 180);
        // Chords of 5° lie inside of the arc: 1 − sin 5°/5° is 0.13 %; the rest is rounding at a kilometre.
        expect(share).toBeGreaterThan(0.997);
        expect(share).toBeLessThan(1.001);
      }),
    );
  });

  it('holds what lies in the middle of the smoke, and nothing behind the pit', () => {
    fc.assert(
      fc.property(anywhere, (sector) => {
        const { latDeg, lonDeg, towardDeg, halfWidthDeg, reachM } = sector;
        const area = forSphere(drawn(sector));
        const at = (bearing: number, m: number): [number, number] => {
          const { lon2 = 0, lat2 = 0 } = geodesic.Geodesic.WGS84.Direct(latDeg, lonDeg, bearing, m);
          return [lon2, lat2];
        };
        // Beside the middle, which may be the cut itself.
        for (const beside of [-0.6, 0.4])
          expect(geoContains(area, at(towardDeg + beside * halfWidthDeg, reachM / 2))).toBe(true);
        expect(geoContains(area, at(towardDeg, reachM * 1.02))).toBe(false);
        expect(geoContains(area, at(towardDeg + 180, reachM / 2))).toBe(false);
      }),
    );
  });

  it('never crosses the antimeridian, and has seven decimals at most', () => {
    fc.assert(
      fc.property(anywhere, (sector) => {
        for (const ring of outsides(drawn(sector))) {
          const lons = ring.map(([lon = Number.NaN]) => lon);
          expect(Math.max(...lons) - Math.min(...lons)).toBeLessThan(10);
          for (const value of ring.flat()) {
            expect(String(value)).toMatch(/^-?\d{1,3}(\.\d{1,7})?$|^-?\d(\.\d+)?e-\d$/);
            expect(Math.abs(value)).toBeLessThanOrEqual(180);
          }
        }
      }),
    );
  });

  it('is cut in two on either side of the antimeridian, with the pit in the part where it lies', () => {
    for (const lonDeg of [179.99, -179.99]) {
      const toward = lonDeg > 0 ? 90 : 270;
      const area = drawn({ ...NORTH, latDeg: 51.9, lonDeg, towardDeg: toward });
      expect(area.type).toBe('MultiPolygon');
      const sides = outsides(area).map((ring) => Math.sign(ring[1]?.[0] ?? 0));
      expect(sides.toSorted()).toEqual([-1, 1]);
      const own = outsides(area).filter((ring) => ring.some(([lon]) => lon === lonDeg));
      expect(own).toHaveLength(1);
    }
    expect(drawn({ ...NORTH, lonDeg: 179.99, towardDeg: 270 }).type).toBe('Polygon');
  });
});

const NORTH: Sector = { latDeg: 38.97, lonDeg: -92.33, towardDeg: 0, halfWidthDeg: 20, reachM: 5000 };

it('a place is longitude first', () => {
  const { coordinates } = pointAt([38.97, -92.33]);
  expect(coordinates).toEqual([-92.33, 38.97]);
  expect(geoDistance(coordinates, [-92.33, 38.97])).toBe(0);
});
