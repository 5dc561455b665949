// What dates bring at a site, weather apart: local days, daylight and shifts over a run of days.

import { addDays, type LocalDate } from '#core/units/local-time.ts';
import { MINUTE_MS, type Span, subtract } from '#core/units/time.ts';
import { type Daylight, daylightOver } from './daylight.ts';
import { type LocalDay, localDaysFrom } from './local-day.ts';
import { shiftsOn, type WorkedShift } from './shift.ts';
import type { Site } from './site.ts';

export interface SiteCalendar {
  readonly days: readonly LocalDay[];
  /** From the first day's beginning to the last day's end. */
  readonly span: Span;
  readonly daylight: readonly Daylight[];
  /** What of the span is not daylight. */
  readonly night: readonly Span[];
  /** Includes the shift that the day before the first day sends over midnight. */
  readonly shifts: readonly WorkedShift[];
}

/** Calendar of `count` local days (at least one) from `firstDate` on. Independent of any forecast. */
export function makeCalendar(site: Site, firstDate: LocalDate, count: number): SiteCalendar {
  // A day more on both sides: a shift may come over midnight, or go over it.
  const around = localDaysFrom(addDays(firstDate, -1), count + 2, site.timeZone);
  const days = around.slice(1, count + 1);
  const span = { fromMs: days[0]?.fromMs ?? Number.NaN, toMs: days.at(-1)?.toMs ?? Number.NaN };
  const shifts = shiftsOn(site.shifts, around, site.timeZone).filter((s) => s.fromMs < span.toMs);
  const daylight = daylightOver(site.place, span).map(inwardToMinutes);
  return { days, span, daylight, night: subtract(span, daylight), shifts };
}

/** Plans are to the minute: a sunrise is taken at the next full minute, a sunset at the one before. */
const inwardToMinutes = (light: Daylight): Daylight => ({
  ...light,
  fromMs: Math.ceil(light.fromMs / MINUTE_MS) * MINUTE_MS,
  toMs: Math.floor(light.toMs / MINUTE_MS) * MINUTE_MS,
});
