// Section 1: who made a message, by which tables, and for which reference time.

import { GribFault } from './fault.ts';
import type { Section } from './section.ts';

export interface Origin {
  /** Common code table C-11; 7 is NCEP, 8 the NWS telecommunications gateway (NDFD). */
  readonly centre: number;
  readonly subCentre: number;
  readonly masterTables: number;
  readonly localTables: number;
  /** Code table 1.2: 0 analysis, 1 start of forecast, 2 verifying time, 3 observation. */
  readonly timeMeaning: number;
  readonly referenceMs: number;
  /** Code table 1.3: 0 operational, 1 operational test, … */
  readonly production: number;
}

export function readOrigin(section: Section): Origin {
  return {
    centre: section.u16(6),
    subCentre: section.u16(8),
    masterTables: section.u8(10),
    localTables: section.u8(11),
    timeMeaning: section.u8(12),
    referenceMs: instantAt(section, 13),
    production: section.u8(20),
  };
}

/** Year in two octets, month, day, hour, minute and second in one each, in UTC. Throws where that is no instant. */
export function instantAt(section: Section, octet: number): number {
  const [year, month, day] = [section.u16(octet), section.u8(octet + 2), section.u8(octet + 3)];
  const [hour, minute, second] = [section.u8(octet + 4), section.u8(octet + 5), section.u8(octet + 6)];
  const ms = Date.UTC(year, month - 1, day, hour, minute, second);
  const back = new Date(ms);
  const holds =
    year >= 1900 &&
    back.getUTCFullYear() === year &&
    back.getUTCMonth() === month - 1 &&
    back.getUTCDate() === day &&
    back.getUTCHours() === hour &&
    back.getUTCMinutes() === minute &&
    back.getUTCSeconds() === second;
  if (!holds) {
    const said = `${year}-${month}-${day} ${hour}:${minute}:${second}`;
    throw new GribFault('malformed', `section ${section.number}: ${said} is no time`, section.byteOf(octet));
  }
  return ms;
}
