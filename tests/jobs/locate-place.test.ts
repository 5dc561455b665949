// What becomes of a place that the source puts elsewhere.

import { expect, it } from 'vitest';
import type { TurnDeps } from '#jobs/deps.ts';
import { locatePlace } from '#jobs/locate-place.ts';
import type { LocatedPlace } from '#sources/grid-source.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');
const PLACE = '38.97,-92.33';

const located = (cell: string, zone: string): LocatedPlace => ({
  point: {
    place: { latDeg: 38.97, lonDeg: -92.33 },
    cell,
    timeZone: 'America/Chicago',
    zones: [{ kind: 'fire', code: zone }],
  },
  locatedAtMs: NOW_MS,
  kept: null,
});

const locate = (before: LocatedPlace | null, now: LocatedPlace) =>
  locatePlace(
    {
      mirror: { place: () => before && { located: before, alerts: 'a'.repeat(64) } },
      source: { locate: async () => now },
      tally: { located: () => undefined },
      log: { info: () => undefined, warn: () => undefined },
      nowMs: () => NOW_MS,
    } as unknown as TurnDeps,
    PLACE,
    new AbortController().signal,
  );

it('in other zones its alerts count as never read, which is a hold, until they have been', async () => {
  const { places } = await locate(located('LSX 10,20', 'MOZ041'), located('LSX 10,20', 'MOZ047'));
  expect(places).toMatchObject([{ place: PLACE, alerts: null, alertsFetchedAtMs: null }]);
});

it('in another cell of the same zones it keeps its alerts', async () => {
  const { places } = await locate(located('LSX 10,20', 'MOZ041'), located('LSX 11,20', 'MOZ041'));
  expect(places?.[0]).toMatchObject({ cell: 'LSX 11,20' });
  expect(places?.[0]).not.toHaveProperty('alerts');
});
