// Whether a station can be believed at a moment: does it still tell, does it still move, does it jump.

import { angleBetweenDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Observation } from './observation.ts';
import { speedOf } from './observation.ts';
import type { Station } from './station.ts';
import { usableWind } from './usable-wind.ts';
import type { WatchSettings } from './watch-settings.ts';

/** silent: nothing that is fresh. frozen: it tells, and does not move. doubtful: its source doubts all that is fresh. */
export type StationState = 'good' | 'silent' | 'frozen' | 'doubtful';

export interface StationHealth {
  readonly state: StationState;
  /** When it last told anything [epoch ms]; null where it has not. */
  readonly lastMs: number | null;
  /** How long what it tells counts as fresh [ms]. */
  readonly freshForMs: number;
  /** How many observations of the last hour stand alone. They are told of, and count: a gust may be short. */
  readonly spikes: number;
  /** What it is frozen at; null where it is not. Also of one that has gone silent since. */
  readonly stuck: StuckWind | null;
}

export interface StuckWind {
  readonly fromDeg: number;
  /** Null where the direction alone is stuck. */
  readonly speedMps: number | null;
  /** The newest observation that told it [epoch ms]. */
  readonly asOfMs: number;
}

export const freshForMs = ({ periodMin }: Station, { stations }: WatchSettings): number =>
  stations.staleAfterPeriods * periodMin * MINUTE_MS;

/** `observations` of this station, in order of time; `othersMove`: another station's wind changed meanwhile. */
export function stationHealth(
  station: Station,
  observations: readonly Observation[],
  nowMs: number,
  settings: WatchSettings,
  othersMove: (fromMs: number) => boolean,
  wasStuck: StuckWind | null = null,
): StationHealth {
  const last = observations.at(-1);
  const freshFor = freshForMs(station, settings);
  const spikes = spikesOf(observations, settings).filter((ms) => ms >= nowMs - HOUR_MS).length;
  // One that was frozen stays so until it moves: that it tells the same for longer is no proof of the contrary.
  const stuck =
    wasStuck !== null && !hasMoved(station, observations, wasStuck)
      ? { ...wasStuck, asOfMs: Math.max(wasStuck.asOfMs, last?.observedAtMs ?? 0) }
      : stuckWind(station, observations, settings, othersMove);
  const told = { lastMs: last?.observedAtMs ?? null, freshForMs: freshFor, spikes, stuck };
  // Age goes by the time of measuring, never by when it was fetched. Also where one of them is no number.
  if (last === undefined || !(nowMs - last.observedAtMs <= freshFor)) return { state: 'silent', ...told };
  if (stuck !== null) return { state: 'frozen', ...told };
  const fresh = observations.filter((o) => nowMs - o.observedAtMs <= freshFor);
  return { state: fresh.every((o) => o.quality === 'doubtful') ? 'doubtful' : 'good', ...told };
}

interface Blown {
  readonly atMs: number;
  readonly fromDeg: number;
  readonly speedMps: number;
}

/** A calm or a blank moves nothing: a vane that is stuck says the same again after it. */
const hasMoved = (
  station: Station,
  observations: readonly Observation[],
  { asOfMs, fromDeg, speedMps }: StuckWind,
): boolean =>
  observations.some((o) => {
    const wind = usableWind(o, station);
    if (o.observedAtMs <= asOfMs || wind.kind !== 'blowing') return false;
    const sameSpeed = speedMps === null || Math.abs(wind.speedMps - speedMps) < SAME;
    return !sameSpeed || angleBetweenDeg(wind.fromDeg, fromDeg) >= SAME;
  });

/** A calm is no frozen wind, and neither is a blank: only what blows can be stuck. */
function stuckWind(
  station: Station,
  observations: readonly Observation[],
  { stations, lookBackMin }: WatchSettings,
  othersMove: (fromMs: number) => boolean,
): StuckWind | null {
  const blown: Blown[] = [];
  for (let i = observations.length - 1; i >= 0; i -= 1) {
    const wind = usableWind(observations[i] as Observation, station);
    if (wind.kind !== 'blowing') break;
    blown.push({ atMs: observations[i]?.observedAtMs ?? 0, ...wind });
  }
  const [newest] = blown;
  if (newest === undefined) return null;
  const { fromDeg, speedMps, atMs: asOfMs } = newest;
  const sameDirection = runOf(blown, (b) => angleBetweenDeg(b.fromDeg, newest.fromDeg) < SAME);
  const sameWind = runOf(sameDirection, (b) => Math.abs(b.speedMps - newest.speedMps) < SAME);
  const since = sameWind.at(-1)?.atMs ?? newest.atMs;
  if (sameWind.length >= stations.frozenRecords && othersMove(since)) return { fromDeg, speedMps, asOfMs };
  // Observers round to 10°: a wind from one such direction for an hour is nothing odd, for three it is, or nearly: no more is looked back on.
  const roundedMin = Math.min(3 * stations.frozenMin, lookBackMin - station.periodMin);
  const neededMin = isFine(blown) ? stations.frozenMin : roundedMin;
  const lastedMs = newest.atMs - (sameDirection.at(-1)?.atMs ?? newest.atMs);
  const isStuck = sameDirection.length >= LEAST_RECORDS && lastedMs >= neededMin * MINUTE_MS;
  return isStuck ? { fromDeg, speedMps: null, asOfMs } : null;
}

const SAME = 1e-6;
/** Fewer are no constancy: an airport's hour has one. */
const LEAST_RECORDS = 6;

function runOf(blown: readonly Blown[], test: (b: Blown) => boolean): readonly Blown[] {
  const end = blown.findIndex((b) => !test(b));
  return end < 0 ? blown : blown.slice(0, end);
}

/** True where directions differ by other than tens of degrees, wherever they are counted from. */
function isFine(blown: readonly Blown[]): boolean {
  const first = blown[0]?.fromDeg ?? 0;
  return blown.some(({ fromDeg }) => {
    const tens = angleBetweenDeg(first, fromDeg) / 10;
    return Math.abs(tens - Math.round(tens)) > SAME;
  });
}

/** Moments of observations that stand alone: speed or gust far from both beside them, which agree. */
export function spikesOf(observations: readonly Observation[], { stations }: WatchSettings): number[] {
  const spikes: number[] = [];
  for (let i = 1; i + 1 < observations.length; i += 1) {
    const three = [i - 1, i, i + 1].map((at) => observations[at] as Observation);
    const figures = [three.map((o) => speedOf(o.wind)), three.map((o) => o.gustMps)];
    if (figures.some((f) => standsAlone(f, stations.spikeMps))) spikes.push(three[1]?.observedAtMs ?? 0);
  }
  return spikes;
}

function standsAlone([before, it, after]: readonly (number | null)[], byMps: number): boolean {
  if (typeof before !== 'number' || typeof it !== 'number' || typeof after !== 'number') return false;
  const [fromBefore, fromAfter] = [it - before, it - after];
  const sameSide = fromBefore > 0 === fromAfter > 0;
  return sameSide && Math.abs(fromBefore) > byMps && Math.abs(fromAfter) > byMps;
}
