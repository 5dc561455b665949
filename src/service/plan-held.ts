// A plan from what is held, for those who have it in hand: the command line, and a what-if.

import { buildFromParts, type SiteParts } from '#config/build-site.ts';
import { draftSite, type SiteFields } from '#config/sites.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Plan } from '#core/plan/plan.ts';
import { workingDayAt } from '#core/site/working-day.ts';
import { addDays, type LocalDate } from '#core/units/local-time.ts';
import type { HeldForecast } from '#memory/site-state.ts';

/** `today`, `tomorrow` or a date → the local date of a site. */
export function dateOf(day: string, nowMs: number, fields: SiteFields, timeZone: string): LocalDate {
  if (day !== 'today' && day !== 'tomorrow') return day;
  const today = workingDayAt(draftSite(fields).shifts, nowMs, timeZone).date;
  return day === 'today' ? today : addDays(today, 1);
}

export function planHeld(
  parts: SiteParts,
  { forecast, alerts, pointTimeZone }: HeldForecast,
  nowMs: number,
  firstDate: LocalDate,
  dayCount: number,
): Plan {
  return makePlan({ ...buildFromParts(parts, pointTimeZone), forecast, alerts, nowMs, firstDate, dayCount });
}
