// A stand-in for the service on this machine: one place, one cell, three zones, each answer replaceable by a test.

import type { IncomingMessage, ServerResponse } from 'node:http';
import { afterEach } from 'vitest';
import { valueAt } from '#core/series/hourly-series.ts';
import { ServiceError } from '#errors.ts';
import { createNwsSource } from '#sources/nws/client.ts';
import type { Pulled } from '#sources/source.ts';
import { type Loopback, makeClock, makeLog, reply, serve } from '../loopback.ts';
import { at, grid, kmh } from './grid-fixture.ts';

export const PLACE = { latDeg: 40.61, lonDeg: -74.03 };
export const START_MS = Date.UTC(2026, 2, 2, 18, 20);
export const POINT = '/points/40.61,-74.03';
export const GRID = '/gridpoints/XXX/12,34';
export const POINT_ALERTS = '/alerts/active?point=40.61,-74.03';
export const FIRE_ALERTS = '/alerts/active?zone=XXZ238';
export const ZONE_ALERTS = '/alerts/active?zone=XXZ110';
export const COUNTY_ALERTS = '/alerts/active?zone=XXC005';

export type Route = (response: ServerResponse, request: IncomingMessage, count: number) => void;

export const zones = (kind: string, code: string): string => `https://api.weather.gov/zones/${kind}/${code}`;

export const pointAnswer = (more: object = {}): object => ({
  properties: {
    cwa: 'XXX',
    gridId: 'XXX',
    gridX: 12,
    gridY: 34,
    forecastGridData: 'https://api.weather.gov/gridpoints/XXX/12,34',
    forecastZone: zones('forecast', 'XXZ110'),
    county: zones('county', 'XXC005'),
    fireWeatherZone: zones('fire', 'XXZ238'),
    timeZone: 'America/New_York',
    ...more,
  },
});

/** A grid updated at 17Z plus some minutes, with a wind that tells one from another. */
export const gridAnswer = (minute: number, more: object = {}, geometry?: unknown): object =>
  grid(
    {
      updateTime: new Date(Date.UTC(2026, 2, 2, 17, minute)).toISOString(),
      windSpeed: kmh(at('18/PT6H', 3.6 * (10 + minute / 10))),
      ...more,
    },
    geometry,
  );

export const json =
  (body: unknown, headers: Record<string, string> = {}): Route =>
  (response) =>
    reply(response, 200, body, headers);

export const failing =
  (status: number, name: string): Route =>
  (response) =>
    reply(response, status, {
      type: `https://api.weather.gov/problems/${name}`,
      title: name,
      status,
      correlationId: 'c1',
    });

/** Answers in turn; the last one again and again. */
export const inTurn = (...routes: readonly Route[]): Route => {
  let next = 0;
  return (response, request, count) => {
    routes[Math.min(next, routes.length - 1)]?.(response, request, count);
    next += 1;
  };
};

const none = { type: 'FeatureCollection', features: [] };

async function fakeService(routes: Readonly<Record<string, Route>> = {}) {
  const table: Record<string, Route> = {
    [POINT]: json(pointAnswer()),
    [GRID]: json(gridAnswer(0)),
    [POINT_ALERTS]: json(none),
    [FIRE_ALERTS]: json(none),
    [ZONE_ALERTS]: json(none),
    [COUNTY_ALERTS]: json(none),
    ...routes,
  };
  const server: Loopback = await serve((response, request, count) => {
    const route = table[request.url ?? ''];
    if (route) route(response, request, count);
    else failing(404, 'NotFound')(response, request, count);
  });
  const clock = makeClock(START_MS);
  const log = makeLog();
  const source = createNwsSource({
    pace: null,
    baseUrl: `${server.origin}/`,
    contact: 'ops@example.org',
    nowMs: clock.nowMs,
    sleep: clock.sleep,
    random: () => 0.5,
    log,
  });
  return {
    source,
    server,
    clock,
    log,
    routes: table,
    paths: () => server.seen.map(({ path }) => path),
    /** Log lines of a level, as text. */
    said: () => log.lines.map(({ message }) => message),
    async close() {
      await source.close();
      await server.close();
    },
  };
}

const open: { close(): Promise<void> }[] = [];

afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

/** A stand-in that is closed after the test. */
export async function service(routes: Readonly<Record<string, Route>> = {}) {
  const found = await fakeService(routes);
  open.push(found);
  return found;
}

/** The wind of the first hour, which tells one grid from another. */
export const windOf = ({ forecast }: Pulled): number | null => valueAt(forecast.series, 'windSpeed', 0);

/** The fault of a call that must fail. */
export async function faultOf(call: Promise<unknown>): Promise<ServiceError> {
  const fault = await call.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(fault instanceof ServiceError)) throw new Error(`no ServiceError but ${String(fault)}`);
  return fault;
}
