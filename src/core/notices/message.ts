// A message: one thing said to people about one site at one moment.

import type { PlanChange } from '#core/plan/diff-plans.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { Verdict } from '#core/rules/finding.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { Tap } from '#core/watch/burn.ts';
import type { PitLit } from '#core/watch/pit-lit.ts';
import type { Transition } from './notice.ts';

interface MessageBase {
  /** Stable: made from what it says, so that whoever makes it again makes the same. */
  readonly id: string;
  /** `organisation/id`. */
  readonly site: string;
  readonly atMs: number;
  /** The worst of what it tells and of what stood beside it; `go` is news, and never leave to light. */
  readonly verdict: Verdict;
  /** All that changed at one evaluation, the worst first; empty for other kinds than `notice`. */
  readonly transitions: readonly Transition[];
  /** Not sent after this [epoch ms]. */
  readonly validUntilMs: number;
  /** True where somebody must answer, or the next is told. */
  readonly needsAnswer: boolean;
}

/** A day's plan as it was told. */
export interface DayTold {
  readonly date: LocalDate;
  readonly day: DaySummary;
  /** What differs from the evening text; empty: the same. Null: there was none to compare with. */
  readonly changes: readonly PlanChange[] | null;
}

/** What the crew did, told to those who watch from elsewhere. */
export interface TapTold {
  readonly burn: string;
  readonly tap: Tap;
  readonly tappedAtMs: number;
  readonly by: string;
  /** Where other pits burn beside it. */
  readonly pit: PitLit | null;
}

/** What the office must know of the texts themselves. */
export interface OfficeMatter {
  readonly what: 'opted-out' | 'opted-in' | 'not-delivered' | 'not-answered' | 'cannot' | 'wrote';
  /** Contact's id, or the number of somebody unknown; null where it is about all. */
  readonly contact: string | null;
  /** The message that it is about; null where it is about none. */
  readonly about: string | null;
  readonly detail: string | null;
}

export type Message = MessageBase &
  (
    | { readonly kind: 'notice' | 'drill' }
    | { readonly kind: 'evening' | 'dawn'; readonly day: DayTold }
    | { readonly kind: 'burn'; readonly tap: TapTold }
    | { readonly kind: 'office'; readonly matter: OfficeMatter }
  );

export type MessageKind = Message['kind'];
