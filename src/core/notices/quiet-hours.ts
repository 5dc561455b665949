// Hours in which somebody is not to be woken, on the site's clock: half open, over midnight too, and on nights in which the
// clock is changed one stretch without a break.

import { addDays, clockTimeMs, localDateAt } from '#core/units/local-time.ts';
import type { Contact } from './contact.ts';

/**
 * A clock time that comes twice is taken so that the quiet is the shorter one: it begins with the later and ends with the
 * earlier. From and to the same is no quiet at all.
 */
export function inQuietHours(quiet: Contact['quiet'], timeZone: string, nowMs: number): boolean {
  if (quiet === null || quiet.from === quiet.to) return false;
  const today = localDateAt(nowMs, timeZone);
  const overMidnight = quiet.to < quiet.from;
  // One that began yesterday may last; one that begins today may have begun.
  return [addDays(today, -1), today].some((date) => {
    const endDate = overMidnight ? addDays(date, 1) : date;
    const fromMs = clockTimeMs(date, quiet.from, timeZone, 'later');
    const toMs = clockTimeMs(endDate, quiet.to, timeZone, 'earlier');
    return nowMs >= fromMs && nowMs < toMs;
  });
}
