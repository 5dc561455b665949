import { describe, expect, it } from 'vitest';
import { groundBounds } from '#publish/map/ground-bounds.ts';

const GROUND = [-121, 35.8, -119, 37] as const;

describe('what a map with tiles shows at first', () => {
  it('is the whole ground where there is no pit', () => {
    expect(groundBounds([], GROUND).box).toEqual(GROUND);
  });

  it('holds every pit with room about it', () => {
    const [west, south, east, north] = groundBounds(
      [
        [36.4, -120.1],
        [36.5, -120.3],
      ],
      GROUND,
    ).box;
    expect([west, south, east, north].map((deg) => Math.round(deg * 10) / 10)).toEqual([
      -120.4, 36.3, -120, 36.6,
    ]);
  });

  it('is one district though the antimeridian runs through it', () => {
    const { box, at } = groundBounds(
      [
        [51.9, 179.5],
        [52.1, -179.5],
      ],
      GROUND,
    );
    expect(box[2] - box[0]).toBeCloseTo(1.2, 6);
    expect(at({ latDeg: 52.1, lonDeg: -179.5 })).toEqual([52.1, 180.5]);
  });
});
