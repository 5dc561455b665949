// What is remembered of each place between pulls: its cell, its newest grid and its alerts.

import type { RememberedAlert } from './alert-memory.ts';
import type { HeldGrid } from './newest-grid.ts';
import type { KnownPoint } from './pull-point.ts';

export interface PlaceFacts {
  readonly point: KnownPoint | null;
  readonly grid: HeldGrid | null;
  readonly alerts: readonly RememberedAlert[];
}

export interface PlaceMemory {
  of(key: string): PlaceFacts;
  remember(key: string, found: Partial<PlaceFacts>): void;
}

const NOTHING: PlaceFacts = { point: null, grid: null, alerts: [] };

/** Remembers at most so many places; the longest unused go first. `alertsBefore`: what others remembered of alerts. */
export function makePlaceMemory(
  mostPlaces: number,
  alertsBefore: ReadonlyMap<string, unknown> = new Map(),
): PlaceMemory {
  const places = new Map<string, PlaceFacts>();
  const factsOf = (key: string): PlaceFacts =>
    places.get(key) ?? {
      ...NOTHING,
      alerts: (alertsBefore.get(key) ?? []) as readonly RememberedAlert[],
    };
  return {
    of: factsOf,
    remember(key, found) {
      const whole = { ...factsOf(key), ...found };
      places.delete(key);
      places.set(key, whole);
      const oldest = places.keys().next();
      if (places.size > mostPlaces && !oldest.done) places.delete(oldest.value);
    },
  };
}
