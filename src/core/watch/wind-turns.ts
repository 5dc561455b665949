// Turns of the wind in what one station told, by the definition that the site goes by.

import { angleBetweenDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Watched } from './choose-station.ts';
import type { WatchSettings } from './watch-settings.ts';
import { isSteady, type WindRecord, windOver } from './wind-records.ts';

export interface Turn {
  /** When the new wind was first there [epoch ms]. */
  readonly atMs: number;
  readonly wasFromDeg: number;
  readonly fromDeg: number;
  readonly speedMps: number;
  /** Where the station tells too seldom to see a quarter of an hour: between which two of its observations. */
  readonly betweenMs: readonly [number, number] | null;
  /** False while it has not lasted long enough to be one. */
  readonly lasted: boolean;
}

const KNOT_MPS = 1852 / 3600;
const DUST_DEG = 1e-6;
const DUST_MPS = 1e-6;
/** Federal Meteorological Handbook No. 1, AFMAN 15-111 7.4.5. */
const FMH_1 = { atLeastDeg: 45, underMs: 15 * MINUTE_MS, atLeastMps: 10 * KNOT_MPS };
/** A turn that has come back by so much did not last. */
export const BACK_DEG = 15;
/** Over a longer silence nothing is compared. */
const LONGEST_GAP_MS = HOUR_MS;

/** Since a moment, in order of time. What came out of order and long after decides none, though it counts in the means. */
export function windTurns(watched: Watched, settings: WatchSettings, sinceMs: number): Turn[] {
  const { winds } = watched;
  const longestGapMs = Math.max(LONGEST_GAP_MS, watched.health.freshForMs);
  const turnAt = settings.shift.definition === 'fmh-1' ? turnByHandbook : turnByMeans;
  const turns = new Map<number, Turn>();
  for (let j = winds.length - 1; j > 0 && (winds[j] as WindRecord).atMs >= sinceMs; j -= 1) {
    const { atMs } = winds[j] as WindRecord;
    const turn = watched.lateMs.has(atMs) ? null : turnAt(winds, j, longestGapMs, settings, watched);
    if (turn === null || turn.atMs < sinceMs || watched.lateMs.has(turn.atMs)) continue;
    if (!turns.get(turn.atMs)?.lasted || turn.lasted) turns.set(turn.atMs, turn);
  }
  return [...turns.values()].sort((a, b) => a.atMs - b.atMs);
}

const turnedBy = (a: number, b: number, deg: number): boolean => angleBetweenDeg(a, b) >= deg - DUST_DEG;

/** Any two observations less than 15 minutes apart, with 10 kt in all from the one to the other. */
function turnByHandbook(points: readonly WindRecord[], j: number, longestGapMs: number): Turn | null {
  const to = points[j] as WindRecord;
  if (!blowsWith(to, FMH_1.atLeastMps)) return null;
  for (let i = j - 1; i >= 0; i -= 1) {
    const from = points[i] as WindRecord;
    const apartMs = to.atMs - from.atMs;
    const sparse = i === j - 1 && apartMs >= FMH_1.underMs && apartMs <= longestGapMs;
    if (!(apartMs < FMH_1.underMs || sparse) || !blowsWith(from, FMH_1.atLeastMps)) return null;
    if (from.wind.kind !== 'blowing' || to.wind.kind !== 'blowing') return null;
    if (!turnedBy(from.wind.fromDeg, to.wind.fromDeg, FMH_1.atLeastDeg)) continue;
    return {
      atMs: firstTurned(points, i, j, from.wind.fromDeg, FMH_1.atLeastDeg),
      wasFromDeg: from.wind.fromDeg,
      fromDeg: to.wind.fromDeg,
      speedMps: to.wind.speedMps,
      betweenMs: sparse ? [from.atMs, to.atMs] : null,
      lasted: true,
    };
  }
  return null;
}

const blowsWith = ({ wind }: WindRecord, atLeastMps: number): boolean =>
  wind.kind === 'blowing' && wind.speedMps >= atLeastMps - DUST_MPS;

/** The wind of the last minutes against the mean before, and against what it was at most `withinMin` ago. */
function turnByMeans(
  points: readonly WindRecord[],
  j: number,
  longestGapMs: number,
  settings: WatchSettings,
  watched: Watched,
): Turn | null {
  const { atLeastDeg, atLeastMps, withinMin } = settings.shift;
  const to = points[j] as WindRecord;
  const { recent } = to;
  if (!isSteady(recent, settings) || recent.speedMps < atLeastMps - DUST_MPS) return null;
  const { fromDeg, speedMps } = recent;
  for (let i = j - 1; i >= 0; i -= 1) {
    const from = points[i] as WindRecord;
    const apartMs = to.atMs - from.atMs;
    const sparse = i === j - 1 && apartMs > withinMin * MINUTE_MS && apartMs <= longestGapMs;
    if (apartMs > withinMin * MINUTE_MS && !sparse) return null;
    const wasFromDeg = turnedFrom(points, i, fromDeg, settings);
    if (wasFromDeg === null) continue;
    const atMs = firstTurned(points, i, j, wasFromDeg, atLeastDeg);
    const betweenMs = sparse ? ([from.atMs, to.atMs] as const) : null;
    const lasted = sparse ? true : hasLasted(points, j, { atMs, wasFromDeg }, settings, watched);
    return lasted === null ? null : { atMs, wasFromDeg, fromDeg, speedMps, betweenMs, lasted };
  }
  return null;
}

/** The direction before, where the wind as of `i` had not turned yet and the new one has; else null. */
function turnedFrom(
  points: readonly WindRecord[],
  i: number,
  fromDeg: number,
  settings: WatchSettings,
): number | null {
  const { recent, wind } = points[i] as WindRecord;
  const { atLeastDeg, baselineMin } = settings.shift;
  // The cheap test first: most winds have not turned at all.
  if (recent.fromDeg !== null && !turnedBy(recent.fromDeg, fromDeg, atLeastDeg)) return null;
  const baseline = windOver(points, baselineMin * MINUTE_MS, settings.wind.undefinedBelow, i);
  if (!isSteady(baseline, settings) || !turnedBy(baseline.fromDeg, fromDeg, atLeastDeg)) return null;
  const hadTurned = wind.kind === 'blowing' && turnedBy(baseline.fromDeg, wind.fromDeg, atLeastDeg);
  return hadTurned ? null : baseline.fromDeg;
}

/** The first observation after `i` that had turned itself. */
function firstTurned(
  points: readonly WindRecord[],
  i: number,
  j: number,
  wasFromDeg: number,
  deg: number,
): number {
  const first = points
    .slice(i + 1, j)
    .find(({ wind }) => wind.kind === 'blowing' && turnedBy(wasFromDeg, wind.fromDeg, deg));
  return (first ?? (points[j] as WindRecord)).atMs;
}

/** True once the new wind has stood long enough, false while it may, null where it has come back. */
function hasLasted(
  points: readonly WindRecord[],
  j: number,
  { atMs, wasFromDeg }: { readonly atMs: number; readonly wasFromDeg: number },
  { shift }: WatchSettings,
  { station }: Watched,
): boolean | null {
  for (const point of points.slice(j)) {
    const { fromDeg } = point.recent;
    if (fromDeg !== null && !turnedBy(wasFromDeg, fromDeg, shift.atLeastDeg - BACK_DEG)) return null;
    const averagingS = point.observation.windAveragingS ?? station.windAveragingS ?? 0;
    if (point.atMs - atMs >= shift.persistMin * MINUTE_MS - averagingS * 1000) return true;
  }
  return false;
}
