// A stand-in for the service's stations on this machine: one place, stations in the list, each answer replaceable by a
// test. All names are invented.

import { afterEach } from 'vitest';
import type { Station } from '#core/watch/station.ts';
import type { StationSource } from '#core/watch/station-source.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import { nwsStations } from '#sources/stations/nws-stations.ts';
import type {
  PolledObservations,
  SourceContext,
  SourceStation,
} from '#sources/stations/observation-source.ts';
import { type Loopback, makeClock, makeLog, reply, serve } from '../loopback.ts';
import { failing, json, pointAnswer, type Route } from '../nws/fake-service.ts';

export const PLACE = { latDeg: 40.61, lonDeg: -74.03 };
export const START_MS = Date.UTC(2026, 2, 2, 18, 20);
export const POINT = '/points/40.61,-74.03';
export const LIST = '/gridpoints/XXX/12,34/stations';
export const latest = (id: string): string => `/stations/${id}/observations/latest`;
export const since = (id: string, time: string): string => `/stations/${id}/observations?start=${time}`;

/** So many km north of the place. */
export const listed = (id: string, km: number, more: object = {}) => ({
  type: 'Feature',
  geometry: { type: 'Point', coordinates: [PLACE.lonDeg, PLACE.latDeg + km / 111.195] },
  properties: {
    stationIdentifier: id,
    name: `${id} Field`,
    elevation: { unitCode: 'wmoUnit:m', value: 100 },
    provider: 'ASOS',
    ...more,
  },
});

export const list = (...features: readonly unknown[]) => ({ type: 'FeatureCollection', features });

const at = (time: string): string => `2026-03-02T${time}:00+00:00`;
const quantity = (unitCode: string, value: number | null) => ({
  unitCode: `wmoUnit:${unitCode}`,
  value,
  qualityControl: value === null ? 'Z' : 'V',
});

/** An observation of today at `HH:MM`. */
export const observed = (time: string, kmh: number | null, fromDeg: number | null, more: object = {}) => ({
  type: 'Feature',
  properties: {
    timestamp: at(time),
    rawMessage: '',
    windSpeed: quantity('km_h-1', kmh),
    windDirection: quantity('degree_(angle)', fromDeg),
    temperature: quantity('degC', 12),
    ...more,
  },
});

export const near = (more: Partial<Extract<StationSource, { kind: 'nws-near' }>> = {}): StationSource => ({
  kind: 'nws-near',
  withinM: 40_000,
  withinHeightM: 300,
  most: 2,
  ...more,
});

export const station = (
  source: StationSource,
  more: Partial<Station> & { site?: string } = {},
): SourceStation => {
  const { site = 'own/mill-bend', ...rest } = more;
  return {
    site,
    place: PLACE,
    siteElevationM: () => 60,
    source,
    directions: { reference: 'true', declinationDeg: null, mountDeg: null },
    station: {
      id: 'airport',
      name: 'airport',
      kind: 'near',
      distanceM: 30_000,
      aboveSiteM: null,
      periodMin: 60,
      windHeightM: null,
      windAveragingS: null,
      directionOffsetDeg: null,
      calmBelowMps: 1,
      ...rest,
    },
  };
};

export interface FakeStations {
  readonly source: PolledObservations;
  readonly routes: Record<string, Route>;
  readonly clock: ReturnType<typeof makeClock>;
  /** Paths asked since the last call. */
  asked(): string[];
}

const open: { close(): Promise<void> }[] = [];
afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

/** Paths with a query are matched whole first, then without it. */
export async function fakeStations(
  stations: readonly SourceStation[],
  routes: Record<string, Route>,
): Promise<FakeStations> {
  const table: Record<string, Route> = { [POINT]: json(pointAnswer()), ...routes };
  const server: Loopback = await serve((response, request, count) => {
    const url = request.url ?? '';
    const route = table[url] ?? table[url.replace(/\?.*/, '?')] ?? table[url.replace(/\?.*/, '')];
    (route ?? failing(404, 'NotFound'))(response, request, count);
  });
  const clock = makeClock(START_MS);
  const log = makeLog();
  const nws = createNwsSource({
    pace: null,
    baseUrl: server.origin,
    contact: 'ops@example.org',
    nowMs: clock.nowMs,
    sleep: clock.sleep,
    random: () => 0.5,
    log,
  });
  open.push(nws, server);
  const context: SourceContext = {
    nowMs: clock.nowMs,
    sleep: clock.sleep,
    random: () => 0.5,
    log,
    nws: nws.context,
    brokers: [],
    secret: () => null,
  };
  const [source] = nwsStations(stations, context);
  if (source?.way !== 'polled') throw new Error('no source was made');
  let seen = 0;
  return {
    source,
    routes: table,
    clock,
    asked() {
      const paths = server.seen.slice(seen).map(({ path }) => path);
      seen = server.seen.length;
      return paths;
    },
  };
}

export { failing, json, reply };
