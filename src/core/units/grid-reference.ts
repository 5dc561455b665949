// Reference of a place in the United States National Grid (FGDC-STD-011-2001), which is the Military Grid Reference System on
// WGS 84: zone and band, square of 100 km, easting and northing within it. Transverse Mercator by the series of Krüger, as
// in Karney 2011 (doi 10.1007/s00190-011-0445-3), to the fourth order: well under a millimetre within a zone.

import type { Position } from './position.ts';

const A_M = 6_378_137;
const F = 1 / 298.257223563;
const N = F / (2 - F);
const E = Math.sqrt(F * (2 - F));
const K0 = 0.9996;
const RECTIFYING_M = (A_M / (1 + N)) * (1 + N ** 2 / 4 + N ** 4 / 64);
const ALPHA = [
  N / 2 - (2 / 3) * N ** 2 + (5 / 16) * N ** 3 + (41 / 180) * N ** 4,
  (13 / 48) * N ** 2 - (3 / 5) * N ** 3 + (557 / 1440) * N ** 4,
  (61 / 240) * N ** 3 - (103 / 140) * N ** 4,
  (49_561 / 161_280) * N ** 4,
];

/** Without I and O, which are read as digits. */
const BANDS = 'CDEFGHJKLMNPQRSTUVWX';
const COLUMNS = ['STUVWXYZ', 'ABCDEFGH', 'JKLMNPQR'];
const ROWS = 'ABCDEFGHJKLMNPQRSTUV';
const SQUARE_M = 100_000;
/** Eight digits: ten metres, cut off and never rounded, as the standard has it. */
const STEP_M = 10;

/** "10S GF 4810 3490"; null beyond 84° north and 80° south, where the grid is another. */
export function gridReference({ latDeg, lonDeg }: Position): string | null {
  if (!(latDeg >= -80 && latDeg <= 84)) return null;
  const zone = zoneOf(latDeg, lonDeg);
  const { eastingM, northingM } = utm(latDeg, lonDeg - (zone * 6 - 183));
  const band = BANDS[Math.min(BANDS.length - 1, Math.floor((latDeg + 80) / 8))] ?? '';
  const column = COLUMNS[zone % 3]?.[Math.floor(eastingM / SQUARE_M) - 1] ?? '';
  const shift = zone % 2 === 0 ? 5 : 0;
  const row = ROWS[(Math.floor(northingM / SQUARE_M) + shift) % ROWS.length] ?? '';
  const digits = (m: number): string => String(Math.floor((m % SQUARE_M) / STEP_M)).padStart(4, '0');
  return `${zone}${band} ${column}${row} ${digits(eastingM)} ${digits(northingM)}`;
}

/** Six degrees each, but for southern Norway and Svalbard. */
function zoneOf(latDeg: number, lonDeg: number): number {
  const lon = ((((lonDeg + 180) % 360) + 360) % 360) - 180;
  if (latDeg >= 56 && latDeg < 64 && lon >= 3 && lon < 12) return 32;
  if (latDeg >= 72 && lon >= 0 && lon < 42) return 31 + 2 * Math.floor((lon + 3) / 12);
  return Math.floor((lon + 180) / 6) + 1;
}

/** North of the equator, or from 10,000 km south of it. */
function utm(latDeg: number, fromMeridianDeg: number): { eastingM: number; northingM: number } {
  const sinLat = Math.sin((latDeg * Math.PI) / 180);
  const lon = (fromMeridianDeg * Math.PI) / 180;
  const t = Math.sinh(Math.atanh(sinLat) - E * Math.atanh(E * sinLat));
  const xi = Math.atan2(t, Math.cos(lon));
  const eta = Math.asinh(Math.sin(lon) / Math.hypot(t, Math.cos(lon)));
  let [north, east] = [xi, eta];
  for (const [i, alpha] of ALPHA.entries()) {
    const j = 2 * (i + 1);
    north += alpha * Math.sin(j * xi) * Math.cosh(j * eta);
    east += alpha * Math.cos(j * xi) * Math.sinh(j * eta);
  }
  const northingM = K0 * RECTIFYING_M * north;
  return {
    eastingM: 500_000 + K0 * RECTIFYING_M * east,
    northingM: latDeg < 0 ? northingM + 10_000_000 : northingM,
  };
}
