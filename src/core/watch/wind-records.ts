// The winds of one station in order of time, and the wind over a stretch of it.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Watched } from './choose-station.ts';
import type { Observation, ObservedWind } from './observation.ts';
import { usableWind } from './usable-wind.ts';
import type { WatchSettings } from './watch-settings.ts';
import { windMean } from './wind-mean.ts';

export interface WindRecord {
  readonly atMs: number;
  readonly wind: ObservedWind;
  readonly observation: Observation;
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

/** Those that tell a wind and are not doubted. A blank never enters: it is no calm and no north. */
export const windRecords = (watched: Watched): WindRecord[] => recordsOf(watched, false);

/** Those that tell a wind that is doubted: they enter no mean. */
export const doubtedWinds = (watched: Watched): WindRecord[] => recordsOf(watched, true);

function recordsOf({ station, observations }: Watched, isDoubted: boolean): WindRecord[] {
  const records: WindRecord[] = [];
  for (const observation of observations) {
    if ((observation.quality === 'doubtful') !== isDoubted) continue;
    const wind = usableWind(observation, station);
    if (wind.kind !== 'missing') records.push({ atMs: observation.observedAtMs, wind, observation });
  }
  return records;
}

/** The wind over `(toMs − overMs, toMs]`. */
export function windOver(
  records: readonly WindRecord[],
  toMs: number,
  overMs: number,
  undefinedBelow: number,
): WindOver {
  const directions: number[] = [];
  let [count, variable, sumMps] = [0, 0, 0];
  for (const { atMs, wind } of records) {
    if (atMs <= toMs - overMs || atMs > toMs) continue;
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

/** The wind "now" as of a record: the mean of the minutes before it. */
export const recentWind = (records: readonly WindRecord[], atMs: number, { wind }: WatchSettings): WindOver =>
  windOver(records, atMs, wind.meanMin * MINUTE_MS, wind.undefinedBelow);

/** True where a direction can be compared with another. */
export const isSteady = (
  over: WindOver,
  { wind }: WatchSettings,
): over is WindOver & { readonly kind: 'blowing'; readonly fromDeg: number; readonly speedMps: number } =>
  over.fromDeg !== null && over.speedMps !== null && over.resultant >= wind.steadyFrom - 1e-9;
