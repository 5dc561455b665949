// A place as a key: four decimals at most (about 11 m), without trailing zeros, no negative zero.

import type { Place } from './site.ts';

/** `38.97,-92.33`. */
export const placeKey = ({ latDeg, lonDeg }: Place): string => `${rounded(latDeg)},${rounded(lonDeg)}`;

/** The same for latitude and longitude as they stand in a configuration. */
export const placeKeyAt = ([latDeg, lonDeg]: readonly [number, number]): string =>
  placeKey({ latDeg, lonDeg });

const rounded = (deg: number): string => String(Number(deg.toFixed(4)) + 0);
