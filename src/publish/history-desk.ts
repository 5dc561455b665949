// What the page of a past day asks of the store of plans: each plan that was made of it, and the one that stood at a moment,
// made again from what is kept.

import type { PlanChange } from '#core/plan/diff-plans.ts';
import type { Plan } from '#core/plan/plan.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { LocalDate } from '#core/units/local-time.ts';

export interface PlanMade {
  readonly planId: string;
  readonly madeAtMs: number;
  readonly cause: 'forecast' | 'alerts' | 'definition' | 'time';
  /** Hash of the forecast document, and when that was first received. */
  readonly document: string;
  readonly receivedAtMs: number;
  readonly program: string;
  readonly day: DaySummary;
  /** What differs from the plan before it; null: it is the first. */
  readonly changes: readonly PlanChange[] | null;
}

/**
 * same-bytes: made again, its answer is byte for byte that of its time. other-bytes: made again, but not the same; another
 * version of the program may have made it. not-kept: what it was made from is kept no more, and only its summary is.
 */
export type Rebuilt = 'same-bytes' | 'other-bytes' | 'not-kept';

export interface PlanKnown {
  readonly planId: string;
  readonly madeAtMs: number;
  readonly program: string;
  readonly rebuilt: Rebuilt;
  /** Of the day asked for, judged as of the moment asked for; null where it is not kept. */
  readonly plan: Plan | null;
  readonly day: DaySummary | null;
}

export interface HistoryDesk {
  /** For how long these are kept. */
  readonly keptDays: { readonly plans: number; readonly burns: number; readonly observations: number };
  /** The version that answers now. */
  readonly program: string;
  /** In the order in which they were made, up to a moment. Throws ServiceError `store_unavailable`. */
  plansOf(siteKey: string, date: LocalDate, untilMs: number): Promise<readonly PlanMade[]>;
  /** Null where no plan of that day stood then. Throws as above. */
  knownAt(siteKey: string, date: LocalDate, atMs: number): Promise<PlanKnown | null>;
  /** When the dawn text of the site goes out, on its clock. */
  dawnOf(siteKey: string): string;
}
