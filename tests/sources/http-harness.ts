// A client and a server for the tests of the polite GET; both closed after each test.

import { afterEach } from 'vitest';
import { ServiceError } from '#errors.ts';
import { type HttpClient, makeHttp } from '#sources/http.ts';
import type { HttpOptions } from '#sources/http-parts.ts';
import { type Handler, type Loopback, makeClock, makeLog, serve } from './loopback.ts';

export const START_MS = Date.UTC(2026, 2, 2, 18, 20);
export const NOW_DATE = 'Mon, 02 Mar 2026 18:20:00 GMT';
const open: { close(): Promise<void> }[] = [];

afterEach(async () => {
  for (const one of open.splice(0)) await one.close();
});

export async function serving(handler: Handler): Promise<Loopback> {
  const server = await serve(handler);
  open.push(server);
  return server;
}

export function client(more: Partial<HttpOptions> = {}) {
  const clock = makeClock(START_MS);
  const log = makeLog();
  const http: HttpClient = makeHttp({
    pace: null,
    userAgent: 'Pitward/0.1 (ops@example.org)',
    accept: 'application/geo+json',
    random: () => 0.5,
    nowMs: clock.nowMs,
    sleep: clock.sleep,
    log,
    ...more,
  });
  open.push(http);
  return { http, clock, log };
}

export const textOf = ({ bytes }: { bytes: Uint8Array }): string => new TextDecoder().decode(bytes);

/** The fault of a call that must fail. */
export async function faultOf(call: Promise<unknown>): Promise<ServiceError> {
  const fault = await call.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(fault instanceof ServiceError)) throw new Error(`no ServiceError but ${String(fault)}`);
  return fault;
}

export const problem = (name: string, status: number, form: 'url' | 'urn' = 'url') => ({
  type: form === 'url' ? `https://api.weather.gov/problems/${name}` : `urn:noaa:nws:api:${name}`,
  title: 'A Title',
  status,
  detail: 'a detail',
  correlationId: 'abc123',
  instance: 'https://api.weather.gov/requests/abc123',
});
