// The one law by which a direction and a speed, as told, become an observed wind: calm, variable, missing and north stay
// four different things, and what is no number never blows.

import { ELEMENTS } from '#core/series/elements.ts';
import { wrapDeg } from '#core/units/direction.ts';
import type { ObservedWind } from '#core/watch/observation.ts';

export interface ToldWind {
  /** Null where none was told. */
  readonly speedMps: number | null;
  /** FROM which it blows, degrees true, 0 … 360; null where none was told. */
  readonly direction: number | 'variable' | 'calm' | null;
}

/**
 * 0 and 360 are north where the wind blows; below `calmBelowMps` it is calm, whatever its direction. A speed out of
 * range is none, as is a direction. Told calm at a speed that is none: the two contradict, and the direction is missing.
 */
export function observedWind({ speedMps, direction }: ToldWind, calmBelowMps: number): ObservedWind {
  const speed = isSpeed(speedMps) ? speedMps : null;
  if (speed === null) {
    return speedMps === null && direction === 'calm' ? { kind: 'calm' } : { kind: 'missing', speedMps: null };
  }
  if (speed === 0 || speed < calmBelowMps) return { kind: 'calm' };
  if (direction === 'variable') return { kind: 'variable', speedMps: speed };
  if (direction === null || direction === 'calm') return { kind: 'missing', speedMps: speed };
  if (!(direction >= 0 && direction <= 360)) return { kind: 'missing', speedMps: speed };
  return { kind: 'blowing', fromDeg: northAs360(direction), speedMps: speed };
}

/** A direction of a wind that blows: in (0, 360], north is 360. */
export const northAs360 = (deg: number): number => wrapDeg(deg) || 360;

const isSpeed = (speed: number | null): speed is number =>
  speed !== null && speed >= ELEMENTS.windSpeed.least && speed <= ELEMENTS.windSpeed.most;
