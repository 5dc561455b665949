// What the board and the search for a smoke's source ask: which burns were open at a moment, and where their smoke went.

import type { Burn, BurnTap } from '#core/watch/burn.ts';
import type { Smoke } from '#core/watch/smoke.ts';

export interface BurnThen {
  /** As its taps up to the moment tell it. */
  readonly burn: Burn;
  /** The last of these that counts; null where it has none. */
  readonly lastTap: BurnTap | null;
}

/** Sites are named by their keys. Every method throws ServiceError `store_unavailable`. */
export interface SmokeDesk {
  /** Burns of all sites that were open at a moment, or were covered after another before it. */
  burnsAt(atMs: number, coveredAfterMs: number): Promise<readonly Burn[]>;
  burnThen(burn: Burn, atMs: number): Promise<BurnThen>;
  /**
   * Where smoke of a site went at each of these moments: by what was observed then, else by the forecast that was known
   * then. What cannot be known any more is missing.
   */
  smokes(siteKey: string, momentsMs: readonly number[]): Promise<readonly Smoke[]>;
}
