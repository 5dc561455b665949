// What becomes of an observation that comes in: observations are known by station and time of measuring, whenever they come.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Observation } from './observation.ts';
import type { WatchSettings } from './watch-settings.ts';

/** accepted: new. duplicate: known already. corrected: put in the place of a known one. future, too-old: not taken. */
export type Taken = 'accepted' | 'duplicate' | 'corrected' | 'future' | 'too-old';

export interface TakenObservation {
  readonly taken: Taken;
  /** Those known now, in order of station and time. */
  readonly observations: readonly Observation[];
}

/** The same observations come out in whatever order, and however often, each comes in. */
export function takeObservation(
  known: readonly Observation[],
  incoming: Observation,
  nowMs: number,
  { futureMin, lookBackMin }: WatchSettings,
): TakenObservation {
  const { station, observedAtMs } = incoming;
  // Also where the time is no number.
  if (!(observedAtMs <= nowMs + futureMin * MINUTE_MS)) return { taken: 'future', observations: known };
  if (observedAtMs < nowMs - lookBackMin * MINUTE_MS) return { taken: 'too-old', observations: known };
  const was = known.find((o) => o.station === station && o.observedAtMs === observedAtMs);
  if (was === undefined) {
    return { taken: 'accepted', observations: [...known, incoming].sort(byStationAndTime) };
  }
  if (!replaces(incoming, was)) return { taken: 'duplicate', observations: known };
  return { taken: 'corrected', observations: known.map((o) => (o === was ? incoming : o)) };
}

/** One observation for each station and moment, in order: what `takeObservation` would have left of all. */
export function settleObservations(observations: readonly Observation[]): Observation[] {
  const settled = new Map<string, Observation>();
  for (const o of observations) {
    const key = `${o.observedAtMs} ${o.station}`;
    const was = settled.get(key);
    if (was === undefined || replaces(o, was)) settled.set(key, o);
  }
  return [...settled.values()].sort(byStationAndTime);
}

export const byStationAndTime = (a: Observation, b: Observation): number => {
  if (a.station !== b.station) return a.station < b.station ? -1 : 1;
  return a.observedAtMs - b.observedAtMs;
};

/** A marked correction stands over what is not marked; of two alike the one received later. */
function replaces(incoming: Observation, was: Observation): boolean {
  const [told, toldBefore] = [contentOf(incoming), contentOf(was)];
  if (incoming.corrects !== was.corrects) return incoming.corrects;
  if (told === toldBefore) return false;
  if (incoming.receivedAtMs !== was.receivedAtMs) return incoming.receivedAtMs > was.receivedAtMs;
  return told > toldBefore;
}

/** What it tells, apart from how it came. */
function contentOf({ receivedAtMs, raw, corrects, ...told }: Observation): string {
  return JSON.stringify(Object.entries(told).sort(([a], [b]) => (a < b ? -1 : 1)));
}
