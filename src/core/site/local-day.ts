// A site's local dates as spans of time, and clock times within them.

import {
  type ClockTime,
  clockTimeMs,
  type DayName,
  datesFrom,
  type LocalDate,
  startOfDayMs,
} from '#core/units/local-time.ts';
import { DAY_MS, MINUTE_MS, type Span } from '#core/units/time.ts';

/** A local date with its span: 23, 24 or 25 hours, or what else its zone makes of it. */
export interface LocalDay extends Span {
  readonly date: LocalDate;
  readonly dayName: DayName;
}

/** `count` local days from `first` on. */
export function localDaysFrom(first: LocalDate, count: number, timeZone: string): LocalDay[] {
  const dates = datesFrom(first, count + 1);
  const starts = dates.map(({ date }) => startOfDayMs(date, timeZone));
  return dates
    .slice(0, count)
    .map((d, i) => ({ ...d, fromMs: starts[i] as number, toMs: starts[i + 1] as number }));
}

/**
 * Instant of a clock time on a local day; `doubled` says which is meant where the clock is set back over it.
 * Only a day that is not 24 hours long needs to ask the zone.
 */
export function clockTimeOn(
  day: LocalDay,
  clock: ClockTime,
  timeZone: string,
  doubled: 'earlier' | 'later',
): number {
  if (day.toMs - day.fromMs !== DAY_MS) return clockTimeMs(day.date, clock, timeZone, doubled);
  return day.fromMs + (Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5))) * MINUTE_MS;
}
