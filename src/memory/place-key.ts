// A place as a key: four decimals at most (about 11 m), without trailing zeros.

/** `38.97,-92.33`. */
export const placeKey = ([latDeg, lonDeg]: readonly [number, number]): string =>
  `${rounded(latDeg)},${rounded(lonDeg)}`;

const rounded = (deg: number): string => String(Number(deg.toFixed(4)) + 0);
