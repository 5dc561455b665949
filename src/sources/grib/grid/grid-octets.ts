// What all grid templates say in the same way.

import { MISSING_U32, type Section } from '#sources/grib/section.ts';
import type { Scanning } from './grid.ts';

const MICRO = 1e6;

/** Latitude in millionths of a degree. */
export function latitudeAt(section: Section, octet: number): number {
  const deg = section.s32(octet) / MICRO;
  if (Math.abs(deg) > 90) throw section.fault('malformed', `latitude ${deg}`, octet);
  return deg;
}

export function longitudeAt(section: Section, octet: number): number {
  const deg = section.s32(octet) / MICRO;
  if (Math.abs(deg) > 360) throw section.fault('malformed', `longitude ${deg}`, octet);
  return deg;
}

/** Ni and Nj; missing ones mean rows of different lengths. */
export function sizeAt(section: Section, octet: number): { ni: number; nj: number } {
  const [ni, nj] = [section.u32(octet), section.u32(octet + 4)];
  if (ni === MISSING_U32 || nj === MISSING_U32) {
    throw section.fault('unsupported', 'rows of different lengths are not read', octet);
  }
  if (ni === 0 || nj === 0) throw section.fault('malformed', `a grid of ${ni} × ${nj} points`, octet);
  return { ni, nj };
}

/** Step in thousandths of a metre. */
export function stepMAt(section: Section, octet: number): number {
  const stepM = section.u32(octet) / 1000;
  if (stepM === 0 || section.u32(octet) === MISSING_U32)
    throw section.fault('malformed', 'a grid without steps', octet);
  return stepM;
}

/** Flag table 3.4. Offset rows and points (0x0f) are not read. */
export function scanningAt(section: Section, octet: number): Scanning {
  const flags = section.u8(octet);
  if ((flags & 0x0f) !== 0)
    throw section.fault('unsupported', `scanning mode ${flags} with offset points is not read`, octet);
  return {
    fromEast: (flags & 0x80) !== 0,
    fromSouth: (flags & 0x40) !== 0,
    byColumn: (flags & 0x20) !== 0,
    turns: (flags & 0x10) !== 0,
  };
}

/** Flag table 3.3, bit 5. */
export const gridRelativeAt = (section: Section, octet: number): boolean => (section.u8(octet) & 0x08) !== 0;
