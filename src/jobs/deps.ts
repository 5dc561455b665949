// What all turns work with.

import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { SiteState } from '#memory/site-state.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { SourceLog } from '#sources/source.ts';
import type { NewDocument } from '#store/document.ts';
import type { PlanRecord } from '#store/plan-record.ts';
import type { Store } from '#store/store.ts';

export interface TurnDeps {
  readonly store: Store;
  readonly mirror: Mirror;
  readonly source: GridSource;
  readonly planner: Planner;
  /** Name of this process among all who take turns. */
  readonly worker: string;
  readonly nowMs: () => number;
  readonly log: SourceLog;
  readonly tally: Tally;
}

/** Makes the plan of a site as it is kept. */
export interface Planner {
  /** The first date that a plan made now would have; null where nothing is held. */
  firstDate(definition: SiteDefinition, state: SiteState, nowMs: number): LocalDate | null;
  /** Null where nothing is held for the site. */
  make(key: string, definition: SiteDefinition, state: SiteState, nowMs: number): MadePlan | null;
}

export interface MadePlan {
  readonly record: Omit<PlanRecord, 'planId' | 'cause'>;
  readonly days: readonly DaySummary[];
  /** What the plan was made from and may not be kept yet. */
  readonly documents: readonly NewDocument[];
}

/** Counts for whoever watches the service. */
export interface Tally {
  pulled(cell: string, outcome: 'new' | 'same' | 'failed', kind: string | null): void;
  planned(count: number, events: number): void;
  alertsRead(complete: number, incomplete: number): void;
  located(fault: string | null): void;
}
