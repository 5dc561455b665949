// What the crew did: taps, each with the time at which it was tapped. A burn is what its taps say; a correction is a new tap.

export type Tap = 'lit' | 'charging' | 'burning-down' | 'covered' | 'put-out-early';

export interface BurnTap {
  /** Unique; made where it was tapped, so that one that is sent again counts once. */
  readonly id: string;
  readonly burn: string;
  readonly tap: Tap;
  /** When it was tapped, by the clock of the one who tapped [epoch ms]. */
  readonly tappedAtMs: number;
  readonly receivedAtMs: number;
  /** Who, as told; from where: `phone`, `page`, `text`, `api`. */
  readonly by: string;
  readonly from: string;
  /** The tap that this one replaces; null for a first telling. A replaced tap counts no more, but stays. */
  readonly corrects: string | null;
  /** True: the tap that it corrects did not happen at all. */
  readonly withdraws: boolean;
  readonly note: string;
}

export interface Burn {
  readonly id: string;
  /** `organisation/id`. */
  readonly site: string;
  readonly state: Tap;
  readonly openedAtMs: number;
  readonly litAtMs: number | null;
  /** When it came to the state that it is in. */
  readonly sinceMs: number;
  /** Null while it must be watched. */
  readonly closedAtMs: number | null;
  /** Wind direction that the crew was briefed on: forecast for the moment of light-up. What they acknowledge later is a row of its own. */
  readonly briefedFromDeg: number | null;
}
