// What a program of dispatch asks to be sent: every event that fits, to its address, in the order of the log.

import { bearingAndDistance } from '#core/units/direction.ts';
import type { EventKind } from './event.ts';

export type HookFormat = 'plain' | 'cloudevents';

/** Degrees of WGS 84, kilometres. A box whose west lies east of its east goes over the antimeridian. */
export type HookArea =
  | { readonly circle: { readonly lat: number; readonly lon: number; readonly radiusKm: number } }
  | {
      readonly box: {
        readonly south: number;
        readonly west: number;
        readonly north: number;
        readonly east: number;
      };
    };

/** As written; null: all of them. */
export interface SubscriptionBody {
  readonly url: string;
  readonly format: HookFormat;
  readonly description: string;
  readonly active: boolean;
  readonly sites: readonly string[] | null;
  readonly area: HookArea | null;
  readonly types: readonly EventKind[] | null;
}

/** `at`: latitude, longitude [deg]. What lies on the edge is within. */
export function isWithin(area: HookArea, [lat, lon]: readonly [number, number]): boolean {
  if ('circle' in area) {
    const { circle } = area;
    const centre = { latDeg: circle.lat, lonDeg: circle.lon };
    return bearingAndDistance(centre, { latDeg: lat, lonDeg: lon }).distanceM <= circle.radiusKm * 1000;
  }
  const { south, west, north, east } = area.box;
  if (lat < south || lat > north) return false;
  return west <= east ? lon >= west && lon <= east : lon >= west || lon <= east;
}
