// The winds of one station in order of time, and the wind over a stretch of them.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Observation, ObservedWind } from './observation.ts';
import type { Station } from './station.ts';
import { usableWind } from './usable-wind.ts';
import type { WatchSettings } from './watch-settings.ts';
import { windMean } from './wind-mean.ts';

export interface WindRecord {
  readonly atMs: number;
  readonly wind: ObservedWind;
  readonly observation: Observation;
  /** The wind "now" as of this: the mean of the minutes before. */
  readonly recent: WindOver;
}

/** missing: nothing told. variable: it blows from no one direction. */
export interface WindOver {
  readonly kind: ObservedWind['kind'];
  /** Mean direction FROM, in (0, 360]; null where there is none. */
  readonly fromDeg: number | null;
  readonly resultant: number;
  /** Mean speed [m/s]; null where nothing was told. */
  readonly speedMps: number | null;
  readonly count: number;
}

type Blown = Pick<WindRecord, 'atMs' | 'wind'>;

export interface StationWinds {
  /** Those that tell a wind and are not doubted. A blank never enters: it is no calm and no north. */
  readonly winds: readonly WindRecord[];
  /** Those that tell a wind that is doubted: they enter no mean but their own. */
  readonly doubted: readonly WindRecord[];
}

/** Of observations in order of time. */
export function stationWinds(
  station: Station,
  observations: readonly Observation[],
  { wind: { meanMin, undefinedBelow } }: WatchSettings,
): StationWinds {
  const accepted: Blown[] = [];
  const winds: WindRecord[] = [];
  const doubted: WindRecord[] = [];
  for (const observation of observations) {
    const wind = usableWind(observation, station);
    if (wind.kind === 'missing') continue;
    const atMs = observation.observedAtMs;
    const isDoubted = observation.quality === 'doubtful';
    const blown = isDoubted ? [{ atMs, wind }] : accepted;
    if (!isDoubted) accepted.push({ atMs, wind });
    const recent = windOver(blown, meanMin * MINUTE_MS, undefinedBelow);
    (isDoubted ? doubted : winds).push({ atMs, wind, observation, recent });
  }
  return { winds, doubted };
}

/** The wind over the last `overMs` of some records, up to and with the one at `end`. */
export function windOver(
  records: readonly Blown[],
  overMs: number,
  undefinedBelow: number,
  end = records.length - 1,
): WindOver {
  const directions: number[] = [];
  const fromMs = (records[end]?.atMs ?? 0) - overMs;
  let [count, variable, sumMps] = [0, 0, 0];
  for (let i = end; i >= 0; i -= 1) {
    const { atMs, wind } = records[i] as Blown;
    if (atMs <= fromMs) break;
    count += 1;
    if (wind.kind === 'blowing') directions.push(wind.fromDeg);
    if (wind.kind === 'variable') variable += 1;
    if (wind.kind === 'blowing' || wind.kind === 'variable') sumMps += wind.speedMps;
  }
  if (count === 0) return { kind: 'missing', fromDeg: null, resultant: 0, speedMps: null, count };
  const speedMps = sumMps / count;
  const blew = directions.length + variable;
  if (blew * 2 < count) return { kind: 'calm', fromDeg: null, resultant: 0, speedMps, count };
  const { fromDeg, resultant } = windMean(directions, undefinedBelow, blew);
  return { kind: fromDeg === null ? 'variable' : 'blowing', fromDeg, resultant, speedMps, count };
}

/** True where a direction can be compared with another. */
export const isSteady = (
  over: WindOver,
  { wind }: WatchSettings,
): over is WindOver & { readonly kind: 'blowing'; readonly fromDeg: number; readonly speedMps: number } =>
  over.fromDeg !== null && over.speedMps !== null && over.resultant >= wind.steadyFrom - 1e-9;
