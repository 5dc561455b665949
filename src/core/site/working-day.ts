// Which local date "today" is for a crew: a night shift after midnight still works on the date on which it began.

import { addDays, type LocalDate, localDateAt, startOfDayMs } from '#core/units/local-time.ts';
import { localDaysFrom } from './local-day.ts';
import { shiftsOn } from './shift.ts';
import type { Shift } from './site.ts';

export interface WorkingDay {
  readonly date: LocalDate;
  /** When another date may become today. */
  readonly untilMs: number;
}

/** The date of the shift in progress, else the calendar date. */
export function workingDayAt(shifts: readonly Shift[], nowMs: number, timeZone: string): WorkingDay {
  const today = localDateAt(nowMs, timeZone);
  const yesterday = addDays(today, -1);
  const worked = shiftsOn(shifts, localDaysFrom(yesterday, 2, timeZone), timeZone);
  const lasting = worked.filter((s) => s.date === yesterday && s.fromMs <= nowMs && nowMs < s.toMs);
  // A shift around the clock has no night of its own: midnight is its change of date.
  const night = lasting.find((s) => s.toMs - s.fromMs < 24 * 3_600_000);
  if (night) return { date: yesterday, untilMs: night.toMs };
  return { date: today, untilMs: startOfDayMs(addDays(today, 1), timeZone) };
}
