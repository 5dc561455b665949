// Where an order holds: within a circle or a box. A pit on the edge is inside.

import { bearingAndDistance } from '#core/units/direction.ts';
import { parseQuantity } from '#core/units/quantity.ts';
import type { Place } from './site.ts';

export type OrderArea =
  | { readonly kind: 'circle'; readonly at: Place; readonly radiusM: number }
  | { readonly kind: 'box'; readonly southWest: Place; readonly northEast: Place };

export function isInArea(area: OrderArea, place: Place): boolean {
  // What is no number is inside: nobody can say that the order is not for this pit.
  if (area.kind === 'circle') return !(bearingAndDistance(area.at, place).distanceM > area.radiusM);
  const { southWest, northEast } = area;
  const isOutside = place.latDeg < southWest.latDeg || place.latDeg > northEast.latDeg;
  return !isOutside && isBetween(place.lonDeg, southWest.lonDeg, northEast.lonDeg);
}

/** From west to east, over the date line where the west end is the greater. */
const isBetween = (lonDeg: number, westDeg: number, eastDeg: number): boolean =>
  westDeg <= eastDeg ? !(lonDeg < westDeg || lonDeg > eastDeg) : !(lonDeg < westDeg && lonDeg > eastDeg);

/** As an office wrote it, of an order that was checked; null: everywhere, or nobody can say where. */
export function areaWritten(within: unknown): OrderArea | null {
  const { circle, box } = (within ?? {}) as Written;
  if (circle) {
    const radius = parseQuantity(circle.radius, 'length');
    return 'fault' in radius ? null : { kind: 'circle', at: placeAt(circle.at), radiusM: radius.value };
  }
  return box ? { kind: 'box', southWest: placeAt(box.southWest), northEast: placeAt(box.northEast) } : null;
}

type Pair = readonly [number, number];

interface Written {
  readonly circle?: { readonly at: Pair; readonly radius: string };
  readonly box?: { readonly southWest: Pair; readonly northEast: Pair };
}

const placeAt = ([latDeg, lonDeg]: Pair): Place => ({ latDeg, lonDeg });
