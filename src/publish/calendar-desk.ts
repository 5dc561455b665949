// What calendars ask: the go windows of sites, each under the name and with the count of changes that it was told with.

import type { CalendarWindow } from '#core/plan/calendar-windows.ts';
import type { BurnTimes } from '#core/site/site.ts';
import type { DeskSite } from './desk.ts';

export interface CalendarSeen {
  readonly windows: readonly CalendarWindow[];
  /** Null where nothing is known of the site yet. */
  readonly burn: BurnTimes | null;
}

export interface CalendarDesk {
  /** In the order of the sites. Throws ServiceError `store_unavailable`, `changed_meanwhile`. */
  of(sites: readonly DeskSite[]): Promise<readonly (CalendarSeen & { readonly site: DeskSite })[]>;
}
