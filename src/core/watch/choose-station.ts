// Who is believed: on site before a person before one elsewhere, the nearest first. One is chosen, never a mean of several.

import type { Observation } from './observation.ts';
import type { Station, StationKind } from './station.ts';
import type { StationHealth } from './station-health.ts';
import type { WatchSettings } from './watch-settings.ts';
import type { StationWinds } from './wind-records.ts';

/** A station with what it told within the time looked back on, in order of time. */
export interface Watched extends StationWinds {
  readonly station: Station;
  readonly observations: readonly Observation[];
  readonly health: StationHealth;
  /** Moments of those that came out of order and long after: they raise nothing any more [epoch ms]. */
  readonly lateMs: ReadonlySet<number>;
}

/** Why a station is not the one: too far or too high says it never is. */
export type PassedOver =
  | 'too-far'
  | 'height-unknown'
  | 'too-high'
  | 'silent'
  | 'frozen'
  | 'doubtful'
  | 'tells-not';

export interface ChosenStation {
  /** Null where there is none to go by. */
  readonly chosen: Watched | null;
  /** Those ranked before it, or all where there is none, and why each was passed over. */
  readonly passedOver: readonly { readonly watched: Watched; readonly why: PassedOver }[];
}

const RANK: Readonly<Record<StationKind, number>> = { onSite: 0, person: 1, near: 2 };

export const rankStations = (stations: readonly Station[]): Station[] =>
  [...stations].sort(
    (a, b) => RANK[a.kind] - RANK[b.kind] || a.distanceM - b.distanceM || (a.id < b.id ? -1 : 1),
  );

/** Why a station can never speak for the site; null where it can. */
export function outOfReach(station: Station, { stations }: WatchSettings): PassedOver | null {
  if (station.kind !== 'near') return null;
  if (!(station.distanceM <= stations.nearWithinM)) return 'too-far';
  if (station.aboveSiteM === null) return 'height-unknown';
  return Math.abs(station.aboveSiteM) <= stations.nearWithinHeightM ? null : 'too-high';
}

/**
 * The first, of stations in rank, that is well and tells what is asked: some observation of it that is still fresh does.
 */
export function chooseStation(
  ranked: readonly Watched[],
  tells: (observation: Observation, station: Station) => boolean,
  nowMs: number,
  settings: WatchSettings,
): ChosenStation {
  const passedOver: { watched: Watched; why: PassedOver }[] = [];
  for (const watched of ranked) {
    const why = whyNot(watched, tells, nowMs, settings);
    if (why === null) return { chosen: watched, passedOver };
    passedOver.push({ watched, why });
  }
  return { chosen: null, passedOver };
}

function whyNot(
  { station, observations, health }: Watched,
  tells: (observation: Observation, station: Station) => boolean,
  nowMs: number,
  settings: WatchSettings,
): PassedOver | null {
  const far = outOfReach(station, settings);
  if (far !== null) return far;
  if (health.state !== 'good') return health.state;
  const fresh = observations.filter((o) => nowMs - o.observedAtMs <= health.freshForMs);
  return fresh.some((o) => o.quality !== 'doubtful' && tells(o, station)) ? null : 'tells-not';
}
