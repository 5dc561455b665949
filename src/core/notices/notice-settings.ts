// How notices are damped. The figures are ours: no source.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';

export interface NoticeSettings {
  /** So many turns within so long are unsteadiness. */
  readonly unsteadyTurns: number;
  readonly unsteadyWithinMs: number;
  /** Unsteadiness ends after so long without a turn; doubled, at most twice, where it comes back again and again. */
  readonly unsteadyQuietMs: number;
  /** What comes back so soon after it was over is unsteady at once. */
  readonly backWithinMs: number;
  /** So long it must be unknown before people are told so. */
  readonly unsureAfterMs: number;
  /** Of the time between two judgements no more than this counts towards anything better: nobody looked in between. */
  readonly unseenCountsMs: number;
}

export const NOTICE_SETTINGS: NoticeSettings = {
  unsteadyTurns: 4,
  unsteadyWithinMs: HOUR_MS,
  unsteadyQuietMs: 30 * MINUTE_MS,
  backWithinMs: HOUR_MS,
  unsureAfterMs: 5 * MINUTE_MS,
  unseenCountsMs: 5 * MINUTE_MS,
};
