// A notice: one thing that somebody must be told, from its first being true until it is over. Numbered transitions, so
// that nothing older is told after something newer.

import type { Verdict } from '#core/rules/finding.ts';
import type { Condition } from '#core/watch/condition.ts';

/**
 * quiet: nothing to tell. pending: true, not yet for long enough. raised: it stands. unsure: it stood, and now nobody can
 * say. clearing: false, not yet for long enough.
 */
export type NoticePhase = 'quiet' | 'pending' | 'raised' | 'unsure' | 'clearing';

/** Plain data: it goes through JSON and comes back the same, so that a restart changes nothing. */
export interface Notice {
  /** `organisation/site code subject`: what it is about. */
  readonly key: string;
  /** `organisation/id`. */
  readonly site: string;
  /** One episode from raised to over; a later one of the same key has another. Empty before the first. */
  readonly episode: string;
  readonly phase: NoticePhase;
  /** When the phase began [epoch ms]. */
  readonly sinceMs: number;
  /** When people were first told in this episode; null before. */
  readonly raisedAtMs: number | null;
  /** Of the last transition of this episode; 0 before the first. */
  readonly number: number;
  /** What stands, whether or not it was told: worse as soon as it has held, better only when that has held. Null: nothing. */
  readonly standing: Verdict | null;
  /** What people were told last in this episode; null: nothing yet. */
  readonly told: Verdict | null;
  /** As it was judged last while it could be judged. */
  readonly condition: Condition;
  /** What it meant then: its verdict while true, null while false. */
  readonly level: Verdict | null;
  /** Since when it has been true, whatever could not be judged in between [epoch ms]; null: it is false. */
  readonly trueSinceMs: number | null;
  readonly lastTrueMs: number;
  /** Since when it has been better than what stands, judged all the while [epoch ms]. */
  readonly betterSinceMs: number | null;
  /** The worst that it was since then. */
  readonly betterWorst: Verdict | null;
  /** Moments at which it turned in the last hour [epoch ms]: many of them are unsteadiness. */
  readonly turnsMs: readonly number[];
  /** Until then nothing better is told, and every turn moves it on; null: steady. */
  readonly unsteadyUntilMs: number | null;
  readonly unsteadyTold: boolean;
  readonly unsureTold: boolean;
  /** When the episode before ended [epoch ms]. */
  readonly overAtMs: number | null;
  /** How many times in a row it came back soon after it was over. */
  readonly returns: number;
  /** When it was last judged [epoch ms]: what the clock did since then is told from it. */
  readonly steppedAtMs: number;
  readonly acknowledgedAtMs: number | null;
  readonly acknowledgedBy: string | null;
}

/**
 * raised: told for the first time. worse, eased: another verdict. unsteady: it comes and goes; treat as what is told until
 * it is quiet. unsure: nobody can say whether it still stands. still: nothing changed, and nobody has answered. over.
 * corrected: it is no longer watched, and nobody says that it is over.
 */
export type TransitionKind =
  | 'raised'
  | 'worse'
  | 'eased'
  | 'unsteady'
  | 'unsure'
  | 'still'
  | 'over'
  | 'corrected';

export interface Transition {
  readonly notice: string;
  readonly site: string;
  readonly episode: string;
  /** From 1 without gaps within its episode. */
  readonly number: number;
  readonly kind: TransitionKind;
  readonly atMs: number;
  /** What stands after it; `go` where nothing does, which is never leave to light. */
  readonly verdict: Verdict;
  /** What was told before it; null: nothing. */
  readonly was: Verdict | null;
  /** When the episode was first told [epoch ms]. */
  readonly raisedAtMs: number;
  /** Kept for the record and not told: a stop of the same site stands. */
  readonly inhibited: boolean;
  readonly condition: Condition;
}

/** Kinds that take something back: told only to those who were told of it. */
export const isRelief = ({ kind }: Pick<Transition, 'kind'>): boolean =>
  kind === 'eased' || kind === 'over' || kind === 'corrected';

/** It demands that nobody burns; what takes a stop back does not. */
export const isStop = (t: Pick<Transition, 'kind' | 'verdict'>): boolean =>
  t.verdict === 'stop' && !isRelief(t);

export const noticeKey = (site: string, { code, subject }: Pick<Condition, 'code' | 'subject'>): string =>
  `${site} ${code} ${subject}`;
