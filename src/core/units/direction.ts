// Compass arithmetic. Directions are degrees clockwise from true north; a wind direction says where wind comes FROM.

/** Wraps any angle into [0, 360). Observed 360 (north) becomes 0. */
export function wrapDeg(deg: number): number {
  if (deg >= 0 && deg < 360) return deg + 0;
  const wrapped = deg % 360;
  const positive = wrapped < 0 ? wrapped + 360 : wrapped + 0;
  // A hair below zero plus 360 rounds to 360 itself.
  return positive === 360 ? 0 : positive;
}

/** Smallest angle between two directions [0, 180] deg. */
export function angleBetweenDeg(aDeg: number, bDeg: number): number {
  return Math.abs(wrapDeg(bDeg - aDeg + 180) - 180);
}

/** Bearing towards which smoke drifts, given the direction that the wind comes from. */
export const downwindDeg = (windFromDeg: number): number => wrapDeg(windFromDeg + 180);

/**
 * True where `bearingDeg` lies in the sector that runs clockwise from `fromDeg` to `toDeg`, widened by `marginDeg`
 * on both sides. Both edges belong to the sector; from 0 to 360 is the whole circle.
 */
export function inSector(bearingDeg: number, fromDeg: number, toDeg: number, marginDeg: number): boolean {
  if (Math.abs(toDeg - fromDeg) >= 360) return true;
  const width = wrapDeg(toDeg - fromDeg);
  if (width + 2 * marginDeg >= 360) return true;
  const into = wrapDeg(bearingDeg - fromDeg + marginDeg);
  return into <= width + 2 * marginDeg + 1e-9 || into >= 360 - 1e-9;
}

/** Wind components [same unit as speed]: u towards east, v towards north, for a wind FROM `fromDeg`. */
export function windComponents(speed: number, fromDeg: number): { u: number; v: number } {
  const rad = (fromDeg * Math.PI) / 180;
  return { u: -speed * Math.sin(rad), v: -speed * Math.cos(rad) };
}

/** Mean wind by vectors: speed [same unit] and direction FROM (360 for north as observers write it, 0 for calm). */
export function vectorMeanWind(winds: readonly { speed: number; fromDeg: number }[]): {
  speed: number;
  fromDeg: number;
} {
  let u = 0;
  let v = 0;
  for (const wind of winds) {
    const part = windComponents(wind.speed, wind.fromDeg);
    u += part.u / winds.length;
    v += part.v / winds.length;
  }
  const speed = Math.hypot(u, v);
  if (speed < 1e-9) return { speed: 0, fromDeg: 0 };
  const fromDeg = wrapDeg((Math.atan2(-u, -v) * 180) / Math.PI);
  return { speed, fromDeg: fromDeg < 1e-9 ? 360 : fromDeg };
}

const POINTS = [
  'N',
  'NNE',
  'NE',
  'ENE',
  'E',
  'ESE',
  'SE',
  'SSE',
  'S',
  'SSW',
  'SW',
  'WSW',
  'W',
  'WNW',
  'NW',
  'NNW',
];

/** Sixteen-point compass name of a bearing. */
export const compassPoint = (deg: number): string => POINTS[Math.round(wrapDeg(deg) / 22.5) % 16] as string;

/** Initial great-circle bearing [deg] and distance [m] from one place to another (sphere of 6,371,008.8 m). */
export function bearingAndDistance(
  from: { latDeg: number; lonDeg: number },
  to: { latDeg: number; lonDeg: number },
): { bearingDeg: number; distanceM: number } {
  const rad = Math.PI / 180;
  const lat1 = from.latDeg * rad;
  const lat2 = to.latDeg * rad;
  const dLon = (to.lonDeg - from.lonDeg) * rad;
  const y = Math.sin(dLon) * Math.cos(lat2);
  const x = Math.cos(lat1) * Math.sin(lat2) - Math.sin(lat1) * Math.cos(lat2) * Math.cos(dLon);
  const h = Math.sin((lat2 - lat1) / 2) ** 2 + Math.cos(lat1) * Math.cos(lat2) * Math.sin(dLon / 2) ** 2;
  return {
    bearingDeg: wrapDeg(Math.atan2(y, x) / rad),
    distanceM: 2 * 6_371_008.8 * Math.asin(Math.sqrt(h)),
  };
}
