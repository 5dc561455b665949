// What the API asks of the rest: sites, plans and what-ifs. An interface, so that publishing knows no source and no file.

import type { Plan } from '#core/plan/plan.ts';
import type { LimitSet } from '#core/score/limit.ts';
import type { ProtectedPlace } from '#core/site/site.ts';
import type { SiteContact } from '#core/site/site-contact.ts';
import type { WorkingDay } from '#core/site/working-day.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { SiteState } from '#memory/site-state.ts';
import type { MadeFrom } from '#publish/answers/head.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import type { NotReady } from './not-ready.ts';
import type { Viewer } from './viewer.ts';

export interface DeskSite {
  /** `organisation/id`. */
  readonly key: string;
  readonly id: string;
  readonly name: string;
  readonly at: readonly [number, number];
  /** Null until the forecast point has told it. */
  readonly timeZone: string | null;
  /** The date that `today` means there, and until when; null where the zone is not known yet. */
  readonly today: WorkingDay | null;
  readonly limits: LimitSet;
  readonly contact: SiteContact;
  readonly protected: readonly ProtectedPlace[];
  /** As configured, for answers. */
  readonly definition: Readonly<Record<string, unknown>>;
  readonly state: SiteState;
  /** What an answer is made from now; null where nothing is kept. */
  readonly madeFrom: MadeFrom | null;
  /** By when the source is asked again; null where it never was. */
  readonly nextDueMs: number | null;
  readonly warnAfterMin: number;
  readonly holdAfterMin: number;
}

/** Sites are named by their key, `organisation/id`; see site-key.ts. */
export interface PlanDesk {
  readonly demo: boolean;
  /** Whose the configuration file is; whoever asks without a key asks for this one. */
  readonly organisation: string;
  readonly preferences: { readonly units: UnitSystem; readonly language: Language };
  nowMs(): number;
  /** Null where it is able to answer: what /readyz says to everybody. */
  whyNotReady(): NotReady | null;
  /** The sites that the viewer may see, in the order of their definitions. */
  sites(viewer: Viewer): readonly DeskSite[];
  /** Version of what is held for a site; 0 for a site that is not there. Rises when its definition changes, too. */
  versionOf(key: string): number;
  /** Throws ServiceError `unknown_site` (see `unknownSite`). */
  site(key: string): DeskSite;
  /** Throws ServiceError `unknown_site` or `no_forecast`. */
  plan(key: string, firstDate: LocalDate, dayCount: number): Plan;
  /**
   * Plans a site that is not configured, with the limit sets and orders that the viewer may see. `day` is a date, `today` or
   * `tomorrow`. Throws ServiceError `bad_body` (facts.faults), `no_forecast`, `store_unavailable`, or what the source
   * throws. Nothing is stored.
   */
  whatIf(viewer: Viewer, body: unknown, day: string, signal?: AbortSignal): Promise<Plan>;
}
