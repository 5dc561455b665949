// An area that crosses the antimeridian is cut in two there (RFC 7946, 3.1.9).

import type { LonLat, Ring } from './geojson.ts';

/**
 * `ring` bends outwards everywhere and stays off the poles; its longitudes go on beyond ±180. Gives the one part or the two,
 * within ±180 and each as it turned before.
 */
export function cutAtAntimeridian(ring: Ring): Ring[] {
  const lons = ring.map(([lon]) => lon);
  const seamDeg = Math.max(...lons) > 180 ? 180 : -180;
  if (Math.max(...lons) <= 180 && Math.min(...lons) >= -180) return [ring];
  const west = side(ring, (lon) => seamDeg - lon, seamDeg);
  const east = side(ring, (lon) => lon - seamDeg, seamDeg);
  const shifted = (part: Ring, byDeg: number): Ring => part.map(([lon, lat]) => [lon + byDeg, lat]);
  const parts = seamDeg === 180 ? [west, shifted(east, -360)] : [shifted(west, 360), east];
  return parts.filter((part) => part.length >= 4);
}

/** What of a ring lies where `depth` is not below zero; the cut lies at `seamDeg` itself. */
function side(ring: Ring, depth: (lon: number) => number, seamDeg: number): Ring {
  const kept: LonLat[] = [];
  for (let i = 1; i < ring.length; i += 1) {
    const [a, b] = [ring[i - 1] as LonLat, ring[i] as LonLat];
    const [fromIn, toIn] = [depth(a[0]), depth(b[0])];
    if (fromIn >= 0) kept.push(a);
    if (fromIn * toIn < 0) kept.push([seamDeg, a[1] + ((b[1] - a[1]) * fromIn) / (fromIn - toIn)]);
  }
  const [first] = kept;
  return first === undefined ? [] : [...kept, first];
}
