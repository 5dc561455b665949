// Units of time (code table 4.4).

import type { Section } from './section.ts';

const HOUR_S = 3600;

/** Code → seconds; months and longer have no fixed length and are not read. */
const UNIT_S: Readonly<Record<number, number>> = {
  0: 60,
  1: HOUR_S,
  2: 24 * HOUR_S,
  10: 3 * HOUR_S,
  11: 6 * HOUR_S,
  12: 12 * HOUR_S,
  13: 1,
};

/** An instant and so many of the unit that an octet names. */
export const addDuration = (section: Section, fromMs: number, unitOctet: number, count: number): number =>
  fromMs + durationMs(section, unitOctet, count);

export function durationMs(section: Section, unitOctet: number, count: number): number {
  const unit = section.u8(unitOctet);
  const seconds = UNIT_S[unit];
  if (seconds === undefined)
    throw section.fault('unsupported', `unit of time ${unit} is not read`, unitOctet);
  return count * seconds * 1000;
}
