// The wind of a period from its samples: speed as a plain mean, direction as the mean of unit vectors, gust as the largest.

import { vectorMeanWind } from '#core/units/direction.ts';
import type { ObservedWind } from '#core/watch/observation.ts';
import { observedWind } from './observed-wind.ts';

export interface WindSample {
  readonly speedMps: number | null;
  /** True; null where the sample does not tell. */
  readonly fromDeg: number | null;
}

/** Below this length of the mean of unit vectors there is no one direction (common practice, no source). */
const NO_ONE_DIRECTION = 0.2;
/** Of so few samples the largest is no gust. */
const FEWEST_FOR_GUST = 3;

/**
 * Missing where half of the samples or more tell no speed; its direction where half of those that blow tell none. A vane
 * that feels nothing points anywhere, so that samples below `calmBelowMps` give no direction.
 */
export function meanWind(
  samples: readonly WindSample[],
  calmBelowMps: number,
): { readonly wind: ObservedWind; readonly gustMps: number | null } {
  const speeds = samples.map(({ speedMps }) => speedMps).filter((speed) => speed !== null);
  const largest = speeds.length >= FEWEST_FOR_GUST ? Math.max(...speeds) : null;
  if (speeds.length * 2 <= samples.length) {
    return { wind: { kind: 'missing', speedMps: null }, gustMps: largest };
  }
  const speedMps = speeds.reduce((sum, speed) => sum + speed, 0) / speeds.length;
  const direction = directionOf(samples, calmBelowMps);
  return { wind: observedWind({ speedMps, direction }, calmBelowMps), gustMps: largest };
}

function directionOf(samples: readonly WindSample[], calmBelowMps: number): number | 'variable' | null {
  const blowing = samples.filter(
    ({ speedMps }) => speedMps !== null && speedMps > 0 && speedMps >= calmBelowMps,
  );
  const directions = blowing.map(({ fromDeg }) => fromDeg).filter((deg) => deg !== null);
  if (directions.length * 2 <= blowing.length || directions.length === 0) return null;
  const mean = vectorMeanWind(directions.map((fromDeg) => ({ speed: 1, fromDeg })));
  return mean.speed < NO_ONE_DIRECTION ? 'variable' : mean.fromDeg;
}
