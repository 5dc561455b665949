// The wind of an observation as the watch may use it: absurd figures are missing, and below the station's threshold it is calm.

import { ELEMENTS } from '#core/series/elements.ts';
import { wrapDeg } from '#core/units/direction.ts';
import type { Observation, ObservedWind } from './observation.ts';
import type { Station } from './station.ts';

const isSpeed = (speedMps: number | null): speedMps is number =>
  speedMps !== null && speedMps >= 0 && speedMps <= ELEMENTS.windSpeed.most;

/** A blank direction stays missing and a variable one variable: neither is ever north, and missing is never calm. */
export function usableWind({ wind }: Observation, { calmBelowMps }: Station): ObservedWind {
  if (wind.kind === 'calm') return wind;
  if (!isSpeed(wind.speedMps)) return { kind: 'missing', speedMps: null };
  if (wind.kind !== 'missing' && wind.speedMps < calmBelowMps) return { kind: 'calm' };
  if (wind.kind !== 'blowing') return wind;
  if (!(wind.fromDeg >= 0 && wind.fromDeg <= 360)) return { kind: 'missing', speedMps: wind.speedMps };
  return { ...wind, fromDeg: wrapDeg(wind.fromDeg) || 360 };
}
