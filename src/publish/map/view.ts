// What part of the earth a map shows: a middle and a scale, rounded, so that pits of one district share one drawing.

import type { Position } from '#core/units/position.ts';

/** A point of the unit sphere. */
export type Unit = readonly [number, number, number];

export interface MapView {
  readonly middle: Position;
  /** Kilometres from the middle to the farther pair of edges. */
  readonly halfKm: number;
}

export const WIDTH = 420;
export const HEIGHT = 360;
const EARTH_KM = 6371.0088;
/** About a single pit so much is shown. */
const LEAST_KM = 40;
/** Room for pins and fans at the edges. */
const MARGIN = 1.35;
const STEP = 1.25;

export const unitOf = ({ latDeg, lonDeg }: Position): Unit => {
  const [lat, lon] = [(latDeg * Math.PI) / 180, (lonDeg * Math.PI) / 180];
  return [Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)];
};

export const positionOf = ([x, y, z]: Unit): Position => ({
  latDeg: (Math.asin(Math.max(-1, Math.min(1, z / (Math.hypot(x, y, z) || 1)))) * 180) / Math.PI,
  lonDeg: (Math.atan2(y, x) * 180) / Math.PI,
});

const angleKm = (a: Unit, b: Unit): number =>
  EARTH_KM * Math.acos(Math.max(-1, Math.min(1, a[0] * b[0] + a[1] * b[1] + a[2] * b[2])));

/** Null of no places. Nothing here knows where degrees begin: the antimeridian and a pole are places as others are. */
export function viewOf(places: readonly Position[]): MapView | null {
  if (places.length === 0) return null;
  const units = places.map(unitOf);
  const mean = units.reduce<Unit>(([a, b, c], [x, y, z]) => [a + x, b + y, c + z], [0, 0, 0]);
  // The middle between the two farthest from each other, about, so that one beside many is not at the edge.
  const from = farthest(units, mean);
  const to = farthest(units, from);
  const between = positionOf([from[0] + to[0], from[1] + to[1], from[2] + to[2]]);
  const middle = rounded(between, angleKm(from, to));
  const centre = unitOf(middle);
  const reachKm = Math.max(...units.map((unit) => angleKm(centre, unit)));
  const steps = Math.ceil(Math.log(Math.max(LEAST_KM, reachKm * MARGIN) / LEAST_KM) / Math.log(STEP));
  return { middle, halfKm: Math.min(9000, LEAST_KM * STEP ** steps) };
}

function farthest(units: readonly Unit[], from: Unit): Unit {
  const length = Math.hypot(...from) || 1;
  const unit: Unit = [from[0] / length, from[1] / length, from[2] / length];
  return units.reduce((far, one) => (angleKm(unit, one) > angleKm(unit, far) ? one : far), units[0] ?? unit);
}

/** To a tenth of what is seen. */
function rounded({ latDeg, lonDeg }: Position, spanKm: number): Position {
  const stepDeg = Math.max(0.02, (Math.max(LEAST_KM, spanKm) / 111) * 0.05);
  const round = (deg: number): number => Math.round(deg / stepDeg) * stepDeg;
  const lat = Math.max(-90, Math.min(90, round(latDeg)));
  return { latDeg: lat, lonDeg: Math.abs(lat) > 85 ? lonDeg : round(lonDeg) };
}

/** As far as the corners of the map. */
export const cornerRad = ({ halfKm }: MapView): number =>
  Math.min(Math.PI, (halfKm * Math.hypot(WIDTH / HEIGHT, 1)) / EARTH_KM);

/** Pixels of a kilometre in the middle. */
export const pxPerKm = ({ halfKm }: MapView): number => HEIGHT / 2 / halfKm;

export const scaleOf = (view: MapView): number => pxPerKm(view) * EARTH_KM;
