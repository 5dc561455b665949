// Turn: a place is resolved to its cell, zones and time zone.

import { isDeepStrictEqual } from 'node:util';
import type { Place } from '#core/site/site.ts';
import type { LocatedPlace } from '#sources/grid-source.ts';
import type { Batch } from '#store/batch.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { TurnDeps } from './deps.ts';
import { storedFault } from './fault.ts';

/** What is to be written; nothing where no site is at that place any more. */
export async function locatePlace(deps: TurnDeps, placeKey: string, signal: AbortSignal): Promise<Batch> {
  const { source, mirror, nowMs, log, tally } = deps;
  const before = mirror.place(placeKey);
  try {
    const located = await source.locate(placeOf(placeKey), locatedOf(before), signal);
    tally.located(null);
    return { places: [patchOf(placeKey, located, locatedOf(before))] };
  } catch (fault) {
    signal.throwIfAborted();
    const told = storedFault(fault, nowMs());
    tally.located(told.code);
    log.warn({ place: placeKey, ...told }, 'place not resolved');
    return { places: [{ place: placeKey, fault: told }] };
  }
}

export const placeOf = (placeKey: string): Place => {
  const [latDeg = Number.NaN, lonDeg = Number.NaN] = placeKey.split(',').map(Number);
  return { latDeg, lonDeg };
};

export const locatedOf = (state: PlaceState | null): LocatedPlace | null =>
  (state?.located ?? null) as LocatedPlace | null;

/** A place in other zones has alerts that nobody has asked for yet: the list held is of the old ones, and none. */
export const patchOf = (placeKey: string, located: LocatedPlace, before: LocatedPlace | null) => ({
  place: placeKey,
  cell: located.point.cell,
  timeZone: located.point.timeZone,
  located,
  locatedAtMs: located.locatedAtMs,
  fault: null,
  ...(before !== null && !isDeepStrictEqual(before.point.zones, located.point.zones)
    ? { alerts: null, alertsFetchedAtMs: null }
    : {}),
});
