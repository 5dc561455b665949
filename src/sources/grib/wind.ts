// Wind from its components. Along the grid they must be turned to true north first (NOAA, RAP and HRRR pages on grid-relative
// winds: the turn is n × (longitude - orientation), n the sine of the cutting latitude).

import { wrapDeg } from '#core/units/direction.ts';
import type { GridPlace } from './sample.ts';

export interface Wind {
  readonly speedMps: number;
  /** Where it comes from, from true north. NaN in a calm. */
  readonly fromDeg: number;
}

/** Below this a direction is rounding alone [m/s]. */
const CALM_MPS = 0.05;

/** Components along i and j [m/s] at a place. Both NaN where one of them is missing. */
export function windFrom(alongI: number, alongJ: number, { turnDeg }: Pick<GridPlace, 'turnDeg'>): Wind {
  const turn = (turnDeg * Math.PI) / 180;
  const east = Math.cos(turn) * alongI + Math.sin(turn) * alongJ;
  const north = Math.cos(turn) * alongJ - Math.sin(turn) * alongI;
  const speedMps = Math.hypot(east, north);
  const isCalm = !(speedMps >= CALM_MPS);
  return { speedMps, fromDeg: isCalm ? Number.NaN : wrapDeg((Math.atan2(-east, -north) * 180) / Math.PI) };
}
