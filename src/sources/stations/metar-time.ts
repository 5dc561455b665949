// Times of a report → instants. The report names day, hour and minute, its remarks less: what is left out is the nearest
// that fits.

import { DAY_MS, floorToHour, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';

/** The instant of a day of the month, nearest to `aroundMs`; null where no near month has such a day or the clock is none. */
export function metarInstantMs(
  { day, hour, minute }: { readonly day: number; readonly hour: number; readonly minute: number },
  aroundMs: number,
): number | null {
  if (day < 1 || hour > 23 || minute > 59) return null;
  const around = new Date(aroundMs);
  let nearest: number | null = null;
  for (const months of [-1, 0, 1]) {
    const ms = Date.UTC(around.getUTCFullYear(), around.getUTCMonth() + months, day, hour, minute);
    if (new Date(ms).getUTCDate() !== day) continue;
    if (nearest === null || Math.abs(ms - aroundMs) < Math.abs(nearest - aroundMs)) nearest = ms;
  }
  return nearest;
}

/** A report tells of what was since the one before, an hour earlier; what is older than this was misread. */
const OLDEST_REMARK_MS = 2 * HOUR_MS;

/**
 * The last instant before a report, or at it, that has this clock: of the hour before where only the minute is told and
 * the hour is young, of the day before across midnight. Null where it is no clock, or longer ago than a report tells of.
 */
export function remarkInstantMs(reportMs: number, hour: number | null, minute: number): number | null {
  if (minute > 59 || (hour !== null && hour > 23)) return null;
  const stepMs = hour === null ? HOUR_MS : DAY_MS;
  const startMs = hour === null ? floorToHour(reportMs) : Math.floor(reportMs / DAY_MS) * DAY_MS;
  const firstMs = startMs + (hour ?? 0) * HOUR_MS + minute * MINUTE_MS;
  const ms = firstMs > reportMs ? firstMs - stepMs : firstMs;
  return reportMs - ms > OLDEST_REMARK_MS ? null : ms;
}
