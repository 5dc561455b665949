// The alerts of many places from one list are those that the questions for each place bring, over time and on recorded and
// invented lists alike.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RememberedAlert } from '#sources/nws/alert-memory.ts';
import { placePath } from '#sources/nws/point.ts';
import { pullAlerts } from '#sources/nws/pull-alerts.ts';
import { pullAllAlerts } from '#sources/nws/pull-all-alerts.ts';
import type { KnownPoint } from '#sources/nws/pull-point.ts';
import { describeRecorded, parsed, recorded } from '../recorded.ts';
import { alert, hourMs, vtec } from './alert-fixture.ts';
import { alertServer, knownPlace } from './alert-server.ts';

interface Round {
  readonly atMs: number;
  readonly standing: readonly unknown[];
  readonly cancelled?: readonly unknown[];
}

const LIMITS = { deadlineMs: Number.POSITIVE_INFINITY, signal: undefined };

/** Reads round after round both ways, each with its own memory; how many alerts stood at the end. */
async function readBothWays(places: readonly KnownPoint[], rounds: readonly Round[]): Promise<number> {
  const server = alertServer(places, 0);
  let one: (readonly RememberedAlert[])[] = places.map(() => []);
  let all = one;
  for (const { atMs, standing, cancelled } of rounds) {
    server.setNow(atMs);
    server.say(standing, cancelled);
    const each = await Promise.all(
      places.map((own, i) => pullAlerts(server.context, own, one[i] ?? [], LIMITS)),
    );
    const together = await pullAllAlerts(
      server.context,
      places.map((own, i) => ({ own, before: all[i] ?? [] })),
      LIMITS,
    );
    expect(together).toEqual(each);
    one = each.map(({ remembered }) => remembered);
    all = together.map(({ remembered }) => remembered);
  }
  return all.flat().length;
}

interface Recorded {
  readonly geometry: { readonly coordinates: readonly (readonly [number, number])[][] } | null;
  readonly properties: { readonly affectedZones: readonly string[] };
}

const NATIONAL = [
  'alerts-active_national_20260514_30-red-flag_reltime.json',
  'alerts-active_national_202607_red-flag-and-smoke_reltime.json',
];

describeRecorded('on recorded national lists', () => {
  const listOf = (name: string) => {
    const { bytes, nowMs } = recorded(name);
    return { nowMs, features: (parsed(bytes) as { readonly features: readonly Recorded[] }).features };
  };

  /** Places in the zones that the list names, some of them inside of its outlines. */
  function placesIn(features: readonly Recorded[], count: number, seed: number): KnownPoint[] {
    const zones = [...new Set(features.flatMap(({ properties }) => properties.affectedZones))];
    const short = (kind: string) =>
      zones.filter((url) => url.includes(`/${kind}/`)).map((url) => url.split('/').slice(-2).join('/'));
    const [forecast, county, fire] = ['forecast', 'county', 'fire'].map(short) as [
      string[],
      string[],
      string[],
    ];
    const outlined = features.flatMap(({ geometry }) => geometry?.coordinates[0] ?? []);
    const corners = outlined.filter((_, i) => i % 7 === 0);
    const places = fc.sample(
      fc
        .record({
          corner: fc.constantFrom(...corners),
          north: fc.integer({ min: -300, max: 300 }),
          east: fc.integer({ min: -300, max: 300 }),
          zones: fc.tuple(fc.constantFrom(...forecast), fc.constantFrom(...county), fc.constantFrom(...fire)),
          // A public zone that bears the code of a fire zone, as in Alabama.
          isShared: fc.boolean(),
        })
        .map(({ corner: [lon, lat], north, east, zones: [public_, county_, fire_], isShared }) => {
          const named = isShared ? fire_.replace('fire/', 'forecast/') : public_;
          // Not on a corner, where nobody says which side a place is on.
          const at = [lat + north / 1000 + 0.00037, lon + east / 1000 + 0.00053] as const;
          return knownPlace(...at, [named, county_, fire_]);
        }),
      { numRuns: count, seed },
    );
    return [...new Map(places.map((known) => [placePath(known.point.place), known])).values()];
  }

  it.each(NATIONAL)(
    '%s: 120 places, from one reading to the next with alerts gone and come',
    async (name) => {
      const { features, nowMs } = listOf(name);
      const places = placesIn(features, 120, 20_260_514);
      const half = features.filter((_, i) => i % 2 === 0);
      const stood = await readBothWays(places, [
        { atMs: nowMs, standing: features },
        { atMs: nowMs + 300_000, standing: half },
        { atMs: nowMs + 600_000, standing: [...half].reverse() },
        { atMs: nowMs + 4_200_000, standing: half },
        { atMs: nowMs + 4_500_000, standing: features },
      ]);
      expect(stood).toBeGreaterThan(120);
    },
  );

  it('an alert that has an outline and no zones is found by the places inside, and by no other (July 2026)', async () => {
    const { features, nowMs } = listOf(NATIONAL[1] as string);
    const bare = features.filter(({ properties }) => properties.affectedZones.length === 0);
    expect(bare).toHaveLength(1);
    const inside = knownPlace(29.3383, -99.2806, ['forecast/XXZ001', 'county/XXC001', 'fire/XXZ001']);
    const outside = knownPlace(30.3383, -99.2806, ['forecast/XXZ001', 'county/XXC001', 'fire/XXZ001']);
    const server = alertServer([inside, outside], nowMs);
    server.say(features);
    const found = await pullAllAlerts(
      server.context,
      [inside, outside].map((own) => ({ own, before: [] })),
      LIMITS,
    );
    const isBare = ({ alert: { id } }: RememberedAlert) => id.startsWith('IINFO');
    expect(found.map(({ remembered }) => remembered.filter(isBare).length)).toEqual([1, 0]);
  });
});

describe('on invented lists', () => {
  const CODES = ['XXZ110', 'XXZ238', 'XXC005', 'XXC007'];
  const KINDS = ['forecast', 'county', 'fire'];
  const zone = fc.record({ kind: fc.constantFrom(...KINDS), code: fc.constantFrom(...CODES) });
  const zoneText = zone.map(({ kind, code }) => `${kind}/${code}`);
  /** Corners lie on a grid and places off it, since on an edge nobody says which side a place is on. */
  const corner = fc
    .tuple(fc.nat(12), fc.nat(12))
    .map(([east, north]): [number, number] => [-100 + east / 4, 38 + north / 4]);
  const ring = fc.array(corner, { minLength: 3, maxLength: 6 }).map((corners) => [...corners, corners[0]]);
  const geometry = fc.oneof(
    fc.constant(null),
    ring.map((outer) => ({ type: 'Polygon', coordinates: [outer] })),
    fc.tuple(ring, ring).map((rings) => ({ type: 'Polygon', coordinates: rings })),
    fc.array(ring, { minLength: 1, maxLength: 3 }).map((rings) => {
      return { type: 'MultiPolygon', coordinates: rings.map((outer) => [outer]) };
    }),
  );

  const feature = (id: string, others: readonly string[]) =>
    fc
      .record({
        zones: fc.array(zoneText, { minLength: 1, maxLength: 3 }),
        geometry,
        bare: fc.boolean(),
        sentHour: fc.integer({ min: 0, max: 17 }),
        endsHour: fc.option(fc.integer({ min: 16, max: 30 })),
        action: fc.constantFrom('NEW', 'CON', 'CAN', 'UPG', 'EXP', null),
        number: fc.integer({ min: 1, max: 3 }),
        status: fc.constantFrom('Actual', 'Actual', 'Actual', 'Test'),
        messageType: fc.constantFrom('Alert', 'Update', 'Cancel'),
        event: fc.constantFrom('Red Flag Warning', 'Air Quality Alert', null),
        replaces: fc.subarray([...others], { maxLength: 2 }),
      })
      .map(({ zones, geometry: land, bare, sentHour, endsHour, action, number, ...rest }) => ({
        ...alert({
          id,
          ...rest,
          // Only an alert that has an outline may be without zones.
          zones: bare && land !== null ? [] : zones,
          ...(action === null ? {} : { vtec: [vtec(action, `FW.W.000${number}`)] }),
          sent: new Date(hourMs(sentHour)).toISOString(),
          ends: endsHour === null ? null : new Date(hourMs(endsHour)).toISOString(),
        }),
        geometry: land,
      }));

  const ids = Array.from({ length: 8 }, (_, i) => `A${i}`);
  const list = fc.tuple(
    ...ids.map((id) =>
      feature(
        id,
        ids.filter((other) => other !== id),
      ),
    ),
  );
  const cancels = fc.tuple(
    ...['C0', 'C1'].map((id) =>
      fc
        .record({ zones: fc.array(zoneText, { minLength: 1 }), replaces: fc.subarray(ids) })
        .map((shape) => alert({ id, ...shape, messageType: 'Cancel', sent: '2026-03-02T17:30:00+00:00' })),
    ),
  );
  const place = fc
    .record({ at: corner, zones: fc.uniqueArray(zoneText, { minLength: 1, maxLength: 3 }) })
    .map(({ at: [lonDeg, latDeg], zones }) => knownPlace(latDeg + 0.0517, lonDeg + 0.0871, zones));
  const distinctPlaces = fc.uniqueArray(place, {
    minLength: 1,
    maxLength: 12,
    selector: ({ point }) => placePath(point.place),
  });

  it('of every shape, with alerts gone, cancelled and come again', async () => {
    await fc.assert(
      fc.asyncProperty(
        list,
        cancels,
        distinctPlaces,
        fc.array(fc.subarray(ids, { minLength: 1 }), { minLength: 2, maxLength: 4 }),
        async (features, cancelled, places, standings) => {
          const rounds = standings.map((named, i) => ({
            atMs: hourMs(18) + i * 25 * 60_000,
            standing: features.filter((_, at) => named.includes(ids[at] as string)),
            cancelled,
          }));
          await readBothWays(places, rounds);
        },
      ),
      { numRuns: 400 },
    );
  });
});
