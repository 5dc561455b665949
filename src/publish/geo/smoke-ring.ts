// The sector that smoke of a pit goes into, as a ring: from the pit along its one edge, round, and back.

import type { Place } from '#core/site/site.ts';
import { placeToward } from '#core/units/position.ts';
import type { LonLat, Ring } from './geojson.ts';

/** A chord lies within two metres of a thousand of the arc. */
const STEP_DEG = 5;

/** Counterclockwise: by falling bearings. Longitudes go on beyond ±180. */
export function smokeRing(
  pit: Place,
  { towardDeg, halfWidthDeg }: { readonly towardDeg: number; readonly halfWidthDeg: number },
  reachM: number,
): Ring {
  const steps = Math.max(2, Math.ceil((2 * halfWidthDeg) / STEP_DEG));
  const at = (i: number): LonLat => {
    const bearingDeg = towardDeg + halfWidthDeg - (2 * halfWidthDeg * i) / steps;
    const { latDeg, lonDeg } = placeToward(pit, bearingDeg, reachM);
    return [besideOf(pit.lonDeg, lonDeg), latDeg];
  };
  const start: LonLat = [pit.lonDeg, pit.latDeg];
  return [start, ...Array.from({ length: steps + 1 }, (_, i) => at(i)), start];
}

/** The same meridian, written so that it lies beside another. */
const besideOf = (nearDeg: number, lonDeg: number): number =>
  lonDeg + 360 * Math.round((nearDeg - lonDeg) / 360);
