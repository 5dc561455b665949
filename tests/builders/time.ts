// Instants as people write them, and back. Every zone is explicit: no test depends on the process's own.

import { clockPartsAt, clockTimeMs, parseInstantMs } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';

export const CHICAGO = 'America/Chicago';

/** `at('2026-03-02 08:30')` → epoch ms; the earlier of a doubled clock time. */
export function at(text: string, timeZone = CHICAGO): number {
  const [date = '', clock = '00:00'] = text.split(' ');
  return clockTimeMs(date, clock, timeZone);
}

/** An RFC 3339 text → epoch ms; throws where it is none. */
export function instant(text: string): number {
  const ms = parseInstantMs(text);
  if (ms === null) throw new Error(`no instant: ${text}`);
  return ms;
}

const two = (n: number): string => String(n).padStart(2, '0');

/** `2026-03-02 08:30` on the zone's clock; the minute that has begun. */
export function clockOf(ms: number, timeZone = CHICAGO): string {
  const { date, hour, minute } = clockPartsAt(ms, timeZone);
  return `${date} ${two(hour)}:${two(minute)}`;
}

export const minutes = (n: number): number => n * MINUTE_MS;
