// Which burns a smoke seen somewhere may come from. Law: what is missing never excludes a burn; only a sector that is known
// and lies elsewhere does, near enough that the smoke which is there now left with the winds asked for; or a distance.

import type { Place } from '#core/site/site.ts';
import { angleBetweenDeg, bearingAndDistance } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { NoSector, Smoke } from './smoke.ts';

export interface BurningPit {
  /** Of its burn. */
  readonly id: string;
  readonly place: Place;
  /** When it was covered [epoch ms]; null where it burned at the moment asked for. */
  readonly coveredAtMs: number | null;
  /** Where its smoke went at the moment and before, the newest first; none counts as nobody saying. */
  readonly smokes: readonly Smoke[];
}

export interface SeenFrom {
  readonly id: string;
  readonly distanceM: number;
  /** From the pit to the place, and the other way. */
  readonly bearingDeg: number;
  readonly backBearingDeg: number;
  /** The one that decides: that covers, that has no sector, or that comes nearest. Null where there is none. */
  readonly smoke: Smoke | null;
  /** How far the place lies beside its middle [deg]; null where it has no sector. */
  readonly besideDeg: number | null;
}

/**
 * at-the-pit: so near that no direction counts. covered: its smoke reaches there, but the pit was covered by then.
 * earlier-wind: so far away that smoke of before the winds asked for may be there.
 */
export type Why = 'sector' | 'at-the-pit' | NoSector | 'earlier-wind' | 'covered' | 'outside';

export interface JudgedPit extends SeenFrom {
  readonly why: Why;
}

export interface SmokeSources {
  /** The likeliest first: by distance, longer the farther it lies from the middle of the sector. */
  readonly covers: readonly JudgedPit[];
  /** By distance. */
  readonly cannotExclude: readonly JudgedPit[];
  /** Whose smoke went elsewhere, by distance. */
  readonly outside: readonly JudgedPit[];
  /** How many lie beyond `REACH_M`. */
  readonly beyond: number;
}

/** Smoke of a pit is not looked for farther away (ours). */
export const REACH_M = 160_934.4;
/** A position told by somebody is no better than this, and smoke lies about the pit itself (ours). */
export const AT_THE_PIT_M = 500;
/** A covered pit goes on smoking for so long (common practice, no source). */
const SMOKES_ON_MS = 2 * HOUR_MS;
/** Smoke seen now left the pit before: the winds of the last hour count too. */
const BEFORE_MIN = [0, 30, 60];
const OLDEST_MIN = Math.max(...BEFORE_MIN);
const S_MS = 1000;
/** Smoke is taken to drift no slower: about the 3 knots below which no direction of it is told (ours). */
export const DRIFT_MPS = 1.5;

/** How long after the cover smoke may be seen so far from the pit: it smokes on, and what left it drifts. */
export const seenAfterCoverMs = (distanceM: number): number => SMOKES_ON_MS + (distanceM / DRIFT_MPS) * S_MS;

/** The moments whose winds count for smoke seen at `atMs` of a pit that was lit at `litMs`, the newest first. */
export const momentsOf = (atMs: number, litMs: number): number[] =>
  BEFORE_MIN.map((min) => atMs - min * MINUTE_MS).filter((ms) => ms === atMs || ms >= litMs);

export function smokeSources(at: Place, pits: readonly BurningPit[]): SmokeSources {
  const judged = pits.map((pit) => judge(at, pit));
  const within = judged.filter(({ distanceM }) => distanceM <= REACH_M);
  const near = within.toSorted((a, b) => a.distanceM - b.distanceM || (a.id < b.id ? -1 : 1));
  const isOf = (whys: readonly Why[]) => near.filter(({ why }) => whys.includes(why));
  const covers = isOf(['sector', 'at-the-pit']).sort((a, b) => rank(a) - rank(b));
  return {
    covers,
    cannotExclude: near.filter((pit) => pit.why !== 'outside' && !covers.includes(pit)),
    outside: isOf(['outside']),
    beyond: judged.length - within.length,
  };
}

/** At the edge of its sector a pit counts as twice as far away. */
function rank({ distanceM, besideDeg, smoke }: JudgedPit): number {
  const share = smoke?.kind === 'toward' && besideDeg !== null ? besideDeg / smoke.halfWidthDeg : 0;
  return distanceM * (1 + share);
}

function judge(at: Place, { id, place, coveredAtMs, smokes }: BurningPit): JudgedPit {
  const { bearingDeg, distanceM } = bearingAndDistance(place, at);
  const backBearingDeg = bearingAndDistance(at, place).bearingDeg;
  const found = { id, distanceM, bearingDeg, backBearingDeg };
  const beside = (smoke: Smoke): number | null =>
    smoke.kind === 'toward' ? angleBetweenDeg(smoke.towardDeg, bearingDeg) : null;
  const because = (why: Why, smoke: Smoke | null): JudgedPit => ({
    ...found,
    why,
    smoke,
    besideDeg: smoke && beside(smoke),
  });
  if (distanceM <= AT_THE_PIT_M)
    return because(coveredAtMs === null ? 'at-the-pit' : 'covered', smokes[0] ?? null);
  const covering = smokes.find((smoke) => covers(smoke, bearingDeg));
  if (covering) return because(coveredAtMs === null ? 'sector' : 'covered', covering);
  const blind = smokes.find(({ kind }) => kind !== 'toward');
  if (blind && blind.kind !== 'toward') return because(blind.kind, blind);
  if (smokes.length === 0) return because('missing', null);
  const nearest = smokes.reduce((a, b) => ((beside(b) ?? 180) < (beside(a) ?? 180) ? b : a));
  return because(distanceM > reachedM(smokes) ? 'earlier-wind' : 'outside', nearest);
}

/** How far the smoke has come that left with the oldest of the winds: no farther than the slowest of them took it. */
function reachedM(smokes: readonly Smoke[]): number {
  const mps = Math.min(DRIFT_MPS, ...smokes.map(({ speedMps }) => speedMps ?? 0));
  return (mps * OLDEST_MIN * MINUTE_MS) / S_MS;
}

/** Its edge belongs to a sector. */
const covers = (smoke: Smoke, bearingDeg: number): boolean =>
  smoke.kind === 'toward' && angleBetweenDeg(smoke.towardDeg, bearingDeg) <= smoke.halfWidthDeg + 1e-9;
