// The wind that a crew has acknowledged during a burn: from then on it is what they go by.

import type { Burn } from './burn.ts';

export interface WindBriefing {
  /** Of the answer by which it was acknowledged. */
  readonly id: string;
  readonly burn: string;
  /** Direction FROM which it blew, as they were told. */
  readonly fromDeg: number;
  /** When that was measured [epoch ms]. */
  readonly observedAtMs: number;
  /** Contact's id, and when they acknowledged it [epoch ms]. */
  readonly by: string;
  readonly atMs: number;
  /** The message that told it. */
  readonly message: string;
}

/** Of all that were acknowledged the wind that was measured last; null: they go by the forecast at light-up. */
export const lastBriefing = (briefings: readonly WindBriefing[], burn: Burn | null): WindBriefing | null =>
  briefings
    .filter((briefing) => briefing.burn === burn?.id)
    .reduce<WindBriefing | null>(
      (last, one) => (last === null || one.observedAtMs > last.observedAtMs ? one : last),
      null,
    );
