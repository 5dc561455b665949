// A notice: one thing that somebody must be told, from its first being true until it is over. Numbered transitions, so
// that nothing older is told after something newer.

import type { Verdict } from '#core/rules/finding.ts';
import type { Condition } from '#core/watch/condition.ts';

/**
 * quiet: nothing to tell. pending: true, not yet for long enough. raised: told. unsure: was raised, and now nobody can say.
 * clearing: false, not yet for long enough.
 */
export type NoticePhase = 'quiet' | 'pending' | 'raised' | 'unsure' | 'clearing';

export interface Notice {
  /** `organisation/site code subject`: what it is about. */
  readonly key: string;
  /** `organisation/id`. */
  readonly site: string;
  /** One episode from raised to over; a later one of the same key has another. Stable over restarts and processes. */
  readonly episode: string;
  readonly phase: NoticePhase;
  /** When the phase began [epoch ms]. */
  readonly sinceMs: number;
  readonly raisedAtMs: number | null;
  /** Of the last transition of this episode; 0 before the first. */
  readonly number: number;
  /** The worst verdict told in this episode. */
  readonly told: Verdict | null;
  readonly condition: Condition;
  readonly lastTrueMs: number;
  /** Moments at which it turned true or false in the last hour [epoch ms]: many of them are unsteadiness. */
  readonly turnsMs: readonly number[];
  readonly unsteadyUntilMs: number | null;
  readonly acknowledgedAtMs: number | null;
  readonly acknowledgedBy: string | null;
}

/** raised, worse, again (true once more before it was over; told only when unsteady), unsure, over. */
export type TransitionKind = 'raised' | 'worse' | 'unsteady' | 'unsure' | 'over' | 'corrected';

export interface Transition {
  readonly notice: string;
  readonly site: string;
  readonly episode: string;
  readonly number: number;
  readonly kind: TransitionKind;
  readonly atMs: number;
  readonly verdict: Verdict;
  readonly condition: Condition;
}

/** One thing said to people about one site at one evaluation: all its transitions, the worst first. */
export interface Message {
  /** Stable: made from what it says, so that whoever makes it again makes the same. */
  readonly id: string;
  readonly site: string;
  readonly atMs: number;
  readonly kind: 'notice' | 'evening' | 'dawn' | 'drill';
  readonly verdict: Verdict;
  readonly transitions: readonly Transition[];
  /** Not sent after this [epoch ms]. */
  readonly validUntilMs: number;
  /** True where somebody must answer, or the next is told. */
  readonly needsAnswer: boolean;
}
