// Circular statistics of wind directions: a mean over north is north, and a mean of nothing is nothing.

import { wrapDeg } from '#core/units/direction.ts';

export interface WindMean {
  /** Direction FROM, in (0, 360]; null where the directions have no common one. */
  readonly fromDeg: number | null;
  /** Length of the mean of unit vectors: 1 all alike, 0 no common direction. */
  readonly resultant: number;
  /** How many directions went in. */
  readonly count: number;
}

/** Resultant length below which a mean direction says nothing (ours). */
export const UNDEFINED_BELOW = 0.2;

/**
 * Mean of directions by unit vectors. What is no number does not enter. `among`: of how many observations these are the ones
 * with a direction; the others shorten the resultant.
 */
export function windMean(
  directionsDeg: readonly number[],
  undefinedBelow = UNDEFINED_BELOW,
  among = 0,
): WindMean {
  const sound = directionsDeg.filter(Number.isFinite);
  let north = 0;
  let east = 0;
  for (const deg of sound) {
    north += Math.cos((deg * Math.PI) / 180);
    east += Math.sin((deg * Math.PI) / 180);
  }
  if (sound.length === 0) return { fromDeg: null, resultant: 0, count: 0 };
  // Rounding lets the length pass 1, whose root and logarithm are then no numbers.
  const resultant = Math.min(1, Math.hypot(north, east) / Math.max(sound.length, among));
  const fromDeg = resultant < undefinedBelow ? null : asObserved((Math.atan2(east, north) * 180) / Math.PI);
  return { fromDeg, resultant, count: sound.length };
}

/** As observers write it: north is 360, and so is a hair beside it. */
function asObserved(deg: number): number {
  const wrapped = wrapDeg(deg);
  return wrapped < 1e-9 ? 360 : wrapped;
}

/** 2/√3 − 1 of Yamartino's formula. */
const YAMARTINO = 2 / Math.sqrt(3) - 1;

/** Standard deviation of directions from their resultant length [deg] (Yamartino 1984); at most 180/√3. */
export function yamartinoSigmaDeg(resultant: number): number {
  const e = Math.sqrt(1 - Math.min(1, Math.max(0, resultant)) ** 2);
  return ((Math.asin(e) * (1 + YAMARTINO * e ** 3)) / Math.PI) * 180;
}

/** Sigma of an hour from those of its quarters [deg]: root mean square (EPA-454/R-99-005, 6.2.1); null of none. */
export function hourlySigmaDeg(quartersDeg: readonly number[]): number | null {
  if (quartersDeg.length === 0) return null;
  return Math.sqrt(quartersDeg.reduce((sum, deg) => sum + deg * deg, 0) / quartersDeg.length);
}
