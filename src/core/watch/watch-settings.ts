// What the watch goes by: every figure that a site may set for itself. Numbers are ours where no source is named.

import type { Verdict } from '#core/rules/finding.ts';

/**
 * ours: 45° within 15 min at 5 kt (NWCG glossary, wind shift for ground use: 45° of a significant wind in a short time).
 * fmh-1: 45° in under 15 min with 10 kt throughout (Federal Meteorological Handbook No. 1; AFMAN 15-111, 7.4.5).
 */
export type ShiftDefinition = 'ours' | 'fmh-1';

export interface ShiftSettings {
  readonly definition: ShiftDefinition;
  /** These three are for `ours`; the handbook's are fixed. */
  readonly atLeastDeg: number;
  readonly withinMin: number;
  readonly atLeastMps: number;
  /** The wind before a turn is the mean of so long. */
  readonly baselineMin: number;
  /** A turn must last so long to be one; what an observation is itself a mean of counts. */
  readonly persistMin: number;
  /** A turn is told of for so long at least, or for one period of its station; beside a fire until it is over. */
  readonly lastsMin: number;
  readonly verdict: Verdict;
}

export interface WatchSettings {
  /** Observations older than this play no part. */
  readonly lookBackMin: number;
  /** What came out of order and is older than this raises nothing any more. */
  readonly lateMin: number;
  /** What is dated farther ahead than this is refused. */
  readonly futureMin: number;
  readonly stations: {
    readonly staleAfterPeriods: number;
    /** A station elsewhere counts within this distance and difference of height. */
    readonly nearWithinM: number;
    readonly nearWithinHeightM: number;
    /** The same direction and speed in so many observations on end while others move: frozen. */
    readonly frozenRecords: number;
    /** A direction constant to the degree for so long: frozen. */
    readonly frozenMin: number;
    /** One observation whose speed or gust differs from both beside it by more than this: a spike. */
    readonly spikeMps: number;
    /** So many spikes within the hour, and the station is doubted. */
    readonly spikesPerHour: number;
  };
  readonly wind: {
    /** "Now" is the mean of so long, 2 to 10. */
    readonly meanMin: number;
    /** Resultant length below which a mean direction is undefined. */
    readonly undefinedBelow: number;
    /** Resultant length from which a direction may be compared with another. */
    readonly steadyFrom: number;
    readonly unsteadyOverMin: number;
    readonly unsteadyClearsForMin: number;
  };
  readonly shift: ShiftSettings;
  readonly drift: {
    readonly atLeastDeg: number;
    readonly clearWithinDeg: number;
    readonly holdsForMin: number;
  };
  readonly smoke: {
    /** Smoke has left a place only when its bearing is this far outside of the widened sector. */
    readonly clearOutsideDeg: number;
  };
  readonly limits: {
    /** Back within a limit by this part of the bound before it counts as over. */
    readonly clearMargin: number;
    /** Roughness length for carrying a wind up or down to 10 m [m]. */
    readonly roughnessM: number;
    /** A hold bound must be broken for so long before it is told; a stop bound is told at once. */
    readonly holdsForMin: number;
  };
  /** What was measured beyond a bound must have been back for so long. */
  readonly clearsForMin: number;
  readonly thunder: {
    /** Since the last thunder (National Weather Service lightning safety: 30 minutes). */
    readonly clearsForMin: number;
    readonly verdict: Verdict;
  };
  readonly plan: {
    /** A time of the plan that moves by this much is told, and is back when it differs by less than the other. */
    readonly movedMin: number;
    readonly backWithinMin: number;
    /** So much time ahead that is worse than was told. */
    readonly worseMin: number;
  };
  readonly burn: {
    readonly chargeSoonMin: number;
    /** Days after the cover on which somebody looks again. */
    readonly lookAgainDays: readonly number[];
    readonly lookAgainAt: string;
  };
  /**
   * What nobody at a site observes at all is left to the forecast, or is a hold. accepted: so is a wind that somebody was to
   * measure and nobody does.
   */
  readonly unobserved: 'forecast' | 'hold' | 'accepted';
}

const KNOT_MPS = 1852 / 3600;

export const DEFAULT_WATCH: WatchSettings = {
  lookBackMin: 180,
  lateMin: 20,
  futureMin: 5,
  stations: {
    staleAfterPeriods: 2.5,
    nearWithinM: 30_000,
    nearWithinHeightM: 150,
    frozenRecords: 12,
    frozenMin: 60,
    spikeMps: 10,
    spikesPerHour: 2,
  },
  wind: {
    meanMin: 5,
    undefinedBelow: 0.2,
    steadyFrom: 0.8,
    unsteadyOverMin: 10,
    unsteadyClearsForMin: 30,
  },
  shift: {
    definition: 'ours',
    atLeastDeg: 45,
    withinMin: 15,
    atLeastMps: 5 * KNOT_MPS,
    baselineMin: 45,
    persistMin: 5,
    lastsMin: 30,
    verdict: 'hold',
  },
  drift: { atLeastDeg: 60, clearWithinDeg: 45, holdsForMin: 5 },
  smoke: { clearOutsideDeg: 15 },
  limits: { clearMargin: 0.1, roughnessM: 0.1, holdsForMin: 2 },
  clearsForMin: 15,
  thunder: { clearsForMin: 30, verdict: 'stop' },
  plan: { movedMin: 30, backWithinMin: 20, worseMin: 30 },
  burn: { chargeSoonMin: 30, lookAgainDays: [1, 3, 7], lookAgainAt: '08:00' },
  unobserved: 'forecast',
};
