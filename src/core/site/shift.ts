// Working hours as instants: shifts by local date, across midnight and across clock changes.

import type { LocalDate } from '#core/units/local-time.ts';
import type { Span } from '#core/units/time.ts';
import { clockTimeOn, type LocalDay } from './local-day.ts';
import type { Shift } from './site.ts';

/** One shift on one date: the span worked and the local date on which it begins. */
export interface WorkedShift extends Span {
  readonly date: LocalDate;
}

/**
 * Shifts that begin on the days given (consecutive), in order of time; one that ends on the day after the last is left
 * out. A doubled clock time (autumn change) is taken so that the shift is the shorter one: a start is the later, an
 * end the earlier of the two. A skipped clock time moves forward.
 */
export function shiftsOn(
  shifts: readonly Shift[],
  days: readonly LocalDay[],
  timeZone: string,
): WorkedShift[] {
  const worked: WorkedShift[] = [];
  for (const [i, day] of days.entries()) {
    for (const shift of shifts) {
      if (!shift.days.includes(day.dayName) || shift.holidays.includes(day.date)) continue;
      const endDay = shift.to <= shift.from ? days[i + 1] : day;
      if (!endDay) continue;
      const fromMs = clockTimeOn(day, shift.from, timeZone, 'later');
      const toMs = clockTimeOn(endDay, shift.to, timeZone, 'earlier');
      if (fromMs < toMs) worked.push({ fromMs, toMs, date: day.date });
    }
  }
  return worked.sort((a, b) => a.fromMs - b.fromMs);
}
