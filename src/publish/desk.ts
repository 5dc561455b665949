// What the API asks of the rest: sites, plans and what-ifs. An interface, so that publishing knows no source and no file.

import type { Plan } from '#core/plan/plan.ts';
import type { LimitSet } from '#core/score/limit.ts';
import type { WorkingDay } from '#core/site/working-day.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { SiteState } from '#memory/site-state.ts';
import type { MadeFrom } from '#publish/answers/head.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';

export interface DeskSite {
  readonly id: string;
  readonly name: string;
  readonly at: readonly [number, number];
  /** Null until the forecast point has told it. */
  readonly timeZone: string | null;
  /** The date that `today` means there, and until when; null where the zone is not known yet. */
  readonly today: WorkingDay | null;
  readonly limits: LimitSet;
  /** As configured, for answers. */
  readonly definition: Readonly<Record<string, unknown>>;
  readonly state: SiteState;
  /** What an answer is made from now; null where nothing is kept. */
  readonly madeFrom: MadeFrom | null;
  readonly warnAfterMin: number;
  readonly holdAfterMin: number;
}

export interface PlanDesk {
  readonly demo: boolean;
  readonly preferences: { readonly units: UnitSystem; readonly language: Language };
  nowMs(): number;
  sites(): readonly DeskSite[];
  /** Version of what is held for a site; 0 for a site that is not there. */
  versionOf(id: string): number;
  /** Throws ServiceError `unknown_site`. */
  site(id: string): DeskSite;
  /** Throws ServiceError `unknown_site` or `no_forecast`. */
  plan(id: string, firstDate: LocalDate, dayCount: number): Plan;
  /**
   * Plans a site that is not configured. `day` is a date, `today` or `tomorrow`.
   * Throws ServiceError `bad_body` (facts.faults), or what the source throws. Nothing is stored.
   */
  whatIf(body: unknown, day: string, signal?: AbortSignal): Promise<Plan>;
}
