// What is written of the alerts that were read.

import { expect, it } from 'vitest';
import type { TurnDeps } from '#jobs/deps.ts';
import { readAlerts } from '#jobs/read-alerts.ts';
import type { LocatedPlace } from '#sources/grid-source.ts';
import type { PlaceState } from '#store/place-state.ts';

const NOW_MS = Date.parse('2026-03-02T12:00:00Z');

const located = (zone: string): LocatedPlace => ({
  point: {
    place: { latDeg: 38.97, lonDeg: -92.33 },
    cell: 'LSX 10,20',
    timeZone: 'America/Chicago',
    zones: [{ kind: 'fire', code: zone }],
  },
  locatedAtMs: NOW_MS,
  kept: null,
});

const place = (name: string, zone: string, alerts: string | null = null): PlaceState => ({
  place: name,
  cell: 'LSX 10,20',
  timeZone: 'America/Chicago',
  located: located(zone),
  locatedAtMs: NOW_MS,
  remembered: null,
  alerts,
  alertsFetchedAtMs: null,
  fault: null,
  version: 1,
});

/** Reads with a store whose places may have changed by the time that the answer is there. */
function read(before: readonly PlaceState[], after: readonly PlaceState[], subject = '') {
  const asked: string[] = [];
  const answers = [before, after];
  const deps = {
    mirror: { places: () => before, sync: async () => undefined },
    store: {
      forecasts: {
        places: async (names: readonly string[]) =>
          answers.shift()?.filter((state) => names.includes(state.place)) ?? [],
      },
    },
    source: {
      alerts: async (places: readonly { located: LocatedPlace }[]) => {
        asked.push(...places.map((one) => one.located.point.zones[0]?.code ?? ''));
        return places.map(() => ({
          seen: { fetchedAtMs: NOW_MS, complete: true, alerts: [] },
          remembered: [],
        }));
      },
    },
    tally: { alertsRead: () => undefined },
  } as unknown as TurnDeps;
  return readAlerts(deps, subject, new AbortController().signal).then((batch) => ({ batch, asked }));
}

it('of a place that came to lie in other zones meanwhile nothing is written: those were not asked for', async () => {
  const before = [place('a', 'MOZ041'), place('b', 'MOZ041')];
  const after = [place('a', 'MOZ041'), place('b', 'MOZ047')];
  const { batch, asked } = await read(before, after);
  expect(asked).toEqual(['MOZ041', 'MOZ041']);
  expect(batch.places?.map((patch) => patch.place)).toEqual(['a']);
  expect(batch.alertsRead?.flatMap(({ places }) => places)).toEqual([]);
});

it('of a place that is gone meanwhile nothing is written', async () => {
  const { batch } = await read([place('a', 'MOZ041')], []);
  expect(batch.places).toEqual([]);
});

it('places that have no alerts yet are asked for alone where told', async () => {
  const places = [place('a', 'MOZ041', 'f'.repeat(64)), place('b', 'MOZ042')];
  const { asked } = await read(places, places, 'unread');
  expect(asked).toEqual(['MOZ042']);
});
