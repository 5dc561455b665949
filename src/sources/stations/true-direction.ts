// Directions as instruments tell them → true. What a direction refers to is never guessed.

import type { DirectionReference, DirectionSettings } from '#core/watch/station-source.ts';
import { northAs360 } from './observed-wind.ts';

/** The direction from true north, in (0, 360]; null where the offset that it needs is not known. */
export function trueDirection(
  deg: number,
  reference: DirectionReference,
  { declinationDeg, mountDeg }: DirectionSettings,
): number | null {
  if (reference === 'true') return northAs360(deg);
  const offsetDeg = reference === 'magnetic' ? declinationDeg : mountDeg;
  return offsetDeg === null ? null : northAs360(deg + offsetDeg);
}
