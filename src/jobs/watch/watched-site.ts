// What one look at a site goes by, beside what the store knows of its watch.

import type { Contact } from '#core/notices/contact.ts';
import type { DayTextTimes } from '#core/notices/day-texts.ts';
import type { EscalationSettings } from '#core/notices/escalate.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { LimitSet } from '#core/score/limit.ts';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Site } from '#core/site/site.ts';
import type { Station } from '#core/watch/station.ts';
import type { WatchSettings } from '#core/watch/watch-settings.ts';
import type { SourceLog } from '#sources/source.ts';
import type { Store } from '#store/store.ts';

export interface WatchedSite {
  /** `organisation/id`. */
  readonly key: string;
  readonly organisation: string;
  readonly site: Site;
  readonly limits: LimitSet;
  readonly settings: WatchSettings;
  readonly texts: DayTextTimes;
  readonly stations: readonly Station[];
  /** Entries of which no station was found since the start: nobody has said yet which they are. */
  readonly unfound: readonly Station[];
  /** Entries to which their source has answered that no station is in reach. */
  readonly noneNear: readonly Station[];
  /** Of its organisation; `optedOutAtMs` is the store's to fill in. */
  readonly contacts: readonly Contact[];
  /** Null where there is no forecast. */
  readonly plan: Plan | null;
  readonly alerts: AlertsSeen | null;
}

export interface SiteOutline {
  readonly timeZone: string;
  readonly texts: DayTextTimes;
  readonly hasCrew: boolean;
}

export interface WatchDeps {
  readonly store: Pick<Store, 'watch' | 'plans'>;
  /** Null where no such site is defined, or it cannot be judged. */
  view(siteKey: string): WatchedSite | null;
  /** Of the site's organisation, as configured. */
  contactsOf(siteKey: string): readonly Contact[];
  /** The cheap part of a view. */
  outline(siteKey: string): SiteOutline | null;
  /** All sites that are defined. */
  siteKeys(): Iterable<string>;
  readonly nowMs: () => number;
  readonly hash: (text: string) => string;
  readonly log: SourceLog;
  readonly escalation: EscalationSettings;
  /** There may be something to send. */
  wake(): void;
}
