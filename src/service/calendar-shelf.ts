// Calendars made before: sun and shifts of a site and its dates depend on no forecast, and every new forecast asks for them.

import { planCalendar } from '#core/plan/make-plan.ts';
import type { SiteCalendar } from '#core/site/calendar.ts';
import type { Site } from '#core/site/site.ts';
import type { LocalDate } from '#core/units/local-time.ts';

export interface CalendarShelf {
  get(site: Site, firstDate: LocalDate, dayCount: number): SiteCalendar;
}

/**
 * Keeps at most `most` calendars of a site; the longest kept goes first. A site whose definition was changed is another
 * one, whatever its name: its calendars are made anew, and go with it.
 */
export function createCalendarShelf(most = 4): CalendarShelf {
  const bySite = new WeakMap<Site, Map<string, SiteCalendar>>();
  return {
    get(site, firstDate, dayCount) {
      const calendars = bySite.get(site) ?? new Map<string, SiteCalendar>();
      bySite.set(site, calendars);
      const key = `${firstDate} ${dayCount}`;
      const known = calendars.get(key);
      if (known) return known;
      const made = planCalendar(site, firstDate, dayCount);
      const oldest = calendars.keys().next();
      if (calendars.size >= most && !oldest.done) calendars.delete(oldest.value);
      calendars.set(key, made);
      return made;
    },
  };
}
