// Template 3.0: latitude and longitude.

import { MISSING_U32, type Section } from '#sources/grib/section.ts';
import type { Earth } from './earth.ts';
import type { LatLonGrid } from './grid.ts';
import { gridRelativeAt, scanningAt, sizeAt } from './grid-octets.ts';

export function readLatLon(section: Section, earth: Earth): LatLonGrid {
  const { ni, nj } = sizeAt(section, 31);
  const unit = angleUnit(section);
  const scanning = scanningAt(section, 72);
  const corner = (octet: number, most: number): number => {
    const deg = section.s32(octet) * unit;
    if (Math.abs(deg) > most + 1e-9) throw section.fault('malformed', `a corner at ${deg} degrees`, octet);
    return deg;
  };
  const [la1, la2] = [corner(47, 90), corner(56, 90)];
  const [lo1, lo2] = [corner(51, 360), corner(60, 360)];
  const [westDeg, eastDeg] = scanning.fromEast ? [lo2, lo1] : [lo1, lo2];
  const [southDeg, northDeg] = scanning.fromSouth ? [la1, la2] : [la2, la1];
  const spanDeg = wrap(eastDeg - westDeg) || 360;
  const stepEastDeg = stepOf(section, 64, { count: ni, spanDeg, unit, wraps: true });
  const stepNorthDeg = stepOf(section, 68, { count: nj, spanDeg: northDeg - southDeg, unit, wraps: false });
  return {
    kind: 'lat-lon',
    ni,
    nj,
    scanning,
    earth,
    gridRelative: gridRelativeAt(section, 55),
    westDeg,
    southDeg,
    stepEastDeg,
    stepNorthDeg,
  };
}

/** Millionths of a degree, unless the basic angle says otherwise. */
function angleUnit(section: Section): number {
  const [basic, parts] = [section.u32(39), section.u32(43)];
  if (basic === 0 || basic === MISSING_U32) return 1e-6;
  if (parts === 0 || parts === MISSING_U32)
    throw section.fault('malformed', 'a basic angle without parts', 43);
  return basic / parts;
}

interface Run {
  readonly count: number;
  readonly spanDeg: number;
  readonly unit: number;
  /** Longitudes may go once round. */
  readonly wraps: boolean;
}

/**
 * The step between neighbours: from the corners, which carry no rounding of their own times the count; what the message says
 * of the step must agree, since else nobody knows where the points lie.
 */
function stepOf(section: Section, octet: number, { count, spanDeg, unit, wraps }: Run): number {
  const raw = section.u32(octet);
  const said = raw === MISSING_U32 || raw === 0 ? null : raw * unit;
  if (count === 1) return said ?? 1;
  const step = spanDeg / (count - 1);
  // Rounding of both corners and of the step, each by one unit.
  const slack = (count + 1) * unit;
  const agrees = said === null || Math.abs(said * (count - 1) - spanDeg) <= slack;
  if (!(step > 0) || !agrees || (wraps && said !== null && said * (count - 1) >= 360 + slack)) {
    throw section.fault('malformed', `${count} points over ${spanDeg} degrees, steps of ${said}`, octet);
  }
  return step;
}

const wrap = (deg: number): number => ((deg % 360) + 360) % 360;

/** True where the next point after the last column is the first one. */
export const goesRound = ({ ni, stepEastDeg }: { ni: number; stepEastDeg: number }): boolean =>
  Math.abs(ni * stepEastDeg - 360) < stepEastDeg / 1000;
