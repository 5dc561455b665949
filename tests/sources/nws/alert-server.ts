// A service in memory that answers questions for alerts from one list, by its own means: as the API is documented and was
// recorded, a point brings what is outlined around it and what names its public zone or county, a zone what bears its code.

import type { Place } from '#core/site/site.ts';
import type { HttpClient } from '#sources/http.ts';
import type { NwsContext } from '#sources/nws/context.ts';
import { placePath } from '#sources/nws/point.ts';
import type { KnownPoint } from '#sources/nws/pull-point.ts';

interface Feature {
  readonly geometry?: { readonly type: string; readonly coordinates: never } | null;
  readonly properties: {
    readonly affectedZones: readonly string[];
    readonly geocode: { readonly UGC?: readonly string[] };
  };
}

export interface AlertServer {
  readonly context: NwsContext;
  /** Paths asked for, in order. */
  readonly asked: string[];
  /** Sets what stands and what was cancelled. */
  say(standing: readonly unknown[], cancelled?: readonly unknown[]): void;
  setNow(ms: number): void;
}

export function alertServer(places: readonly KnownPoint[], startMs: number): AlertServer {
  const byPath = new Map(places.map((known) => [placePath(known.point.place), known]));
  const asked: string[] = [];
  let standing: readonly Feature[] = [];
  let cancelled: readonly Feature[] = [];
  let nowMs = startMs;

  function answer(url: URL): readonly Feature[] {
    const list = url.searchParams.get('message_type') === 'cancel' ? cancelled : standing;
    const zone = url.searchParams.get('zone');
    const at = url.searchParams.get('point');
    if (zone !== null) return list.filter((feature) => codesOf(feature).includes(zone));
    const known = at === null ? null : byPath.get(at);
    return known ? list.filter((feature) => bringsPoint(feature, known)) : list;
  }

  const http = {
    async get(address: string) {
      asked.push(address);
      const bytes = new TextEncoder().encode(JSON.stringify({ features: answer(new URL(address)) }));
      const told = { receivedAtMs: nowMs, confirmedAtMs: nowMs, ageMs: 0, reused: false };
      return { bytes, ...told, etag: null, lastModified: null };
    },
    forget: () => undefined,
  } as unknown as HttpClient;
  const log = { info: () => undefined, warn: () => undefined };
  return {
    asked,
    context: { http, baseUrl: 'https://api.example.org', nowMs: () => nowMs, log },
    say(now, gone = []) {
      standing = now as readonly Feature[];
      cancelled = gone as readonly Feature[];
    },
    setNow: (ms) => {
      nowMs = ms;
    },
  };
}

const codesOf = ({ properties }: Feature): string[] => [
  ...properties.affectedZones.map((url) => url.split('/').at(-1) ?? ''),
  ...(properties.geocode.UGC ?? []),
];

function bringsPoint(feature: Feature, { point }: KnownPoint): boolean {
  const own = point.zones.filter(({ kind }) => kind !== 'fire').map(({ kind, code }) => `${kind}/${code}`);
  const named = feature.properties.affectedZones.some((url) => own.some((zone) => url.endsWith(`/${zone}`)));
  return named || (feature.geometry != null && holds(feature.geometry, point.place));
}

type Rings = readonly (readonly (readonly [number, number])[])[];

/** By the winding of each ring around the place: another way than the program's own. */
function holds(geometry: { readonly type: string; readonly coordinates: never }, place: Place): boolean {
  const polygons: readonly Rings[] =
    geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  return polygons.some(([outer, ...holes]) => {
    return outer && windsAround(outer, place) && !holes.some((hole) => windsAround(hole, place));
  });
}

function windsAround(ring: Rings[number], { latDeg, lonDeg }: Place): boolean {
  let turned = 0;
  for (const [i, [lonA, latA]] of ring.entries()) {
    const [lonB, latB] = ring[(i + 1) % ring.length] as readonly [number, number];
    const a = Math.atan2(latA - latDeg, lonA - lonDeg);
    const b = Math.atan2(latB - latDeg, lonB - lonDeg);
    const turn = b - a;
    turned += Math.atan2(Math.sin(turn), Math.cos(turn));
  }
  return Math.abs(turned) > Math.PI;
}

/** A place resolved to zones, `forecast/XXZ110`. */
export const knownPlace = (latDeg: number, lonDeg: number, zones: readonly string[]): KnownPoint => ({
  point: {
    place: { latDeg, lonDeg },
    cell: 'XXX 1,1',
    timeZone: 'America/Chicago',
    zones: zones.map((zone) => {
      const [kind = '', code = ''] = zone.split('/');
      return { kind, code };
    }),
  },
  gridpointPath: '/gridpoints/XXX/1,1',
  lackingZones: [],
  resolvedAtMs: 0,
});
