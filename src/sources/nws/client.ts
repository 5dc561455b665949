// The NWS API as a forecast source: point, grid and alerts of any place in one pull. What it remembers between pulls
// (cell, newest grid, alerts) only ever makes an answer more careful.

import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';
import { isUsableContact } from '#core/units/contact.ts';
import { ServiceError } from '#errors.ts';
import type { GridSource } from '#sources/grid-source.ts';
import { makeHttp } from '#sources/http.ts';
import type { LineState } from '#sources/http-breaker.ts';
import type { Pace } from '#sources/http-pace.ts';
import type { HttpOptions } from '#sources/http-parts.ts';
import { makeShared } from '#sources/http-shared.ts';
import type { ForecastSource, Pulled } from '#sources/source.ts';
import type { GridContext, PullLimits } from './context.ts';
import { makeGridReader } from './grid-reader.ts';
import { makeGridSource } from './nws-grid-source.ts';
import { makePlaceMemory } from './place-memory.ts';
import { placePath } from './point.ts';
import { pullAlerts } from './pull-alerts.ts';
import { pullGrid } from './pull-grid.ts';
import { type KnownPoint, pullPoint } from './pull-point.ts';

export interface NwsSourceOptions extends Omit<HttpOptions, 'userAgent' | 'accept' | 'pace'> {
  /** `https://api.weather.gov`; another one for a mirror or a test. */
  readonly baseUrl?: string;
  /** Mail address or URL by which the service's operators reach ours; required by them. */
  readonly contact: string;
  /** Null for a server of our own, such as the demo's; the service's own pace where it is left out. */
  readonly pace?: Pace | null;
  /** What was remembered of alerts when the source was made, by place (`38.97,-92.33`), as `grid.alerts` gives it. */
  readonly alertsBefore?: ReadonlyMap<string, unknown>;
}

export const NWS_BASE_URL = 'https://api.weather.gov';
/** One pull of one place at once, then a request a second: the service's limits are secret, so ours are low. */
const NWS_PACE: Pace = { burst: 6, everyMs: 1_000 };
const PULL_DEADLINE_MS = 120_000;
/** Places remembered at once, each with its document of some 200 kB; the longest unused go first. */
const MOST_PLACES = 500;

/** Documents kept decoded, each of some 100 kB: those of one cell are asked for one after the other. */
const GRIDS_DECODED = 16;

/** Places one by one with a memory of its own, and beside it the same by cell without one. */
export interface NwsSource extends ForecastSource {
  readonly grid: GridSource;
  /** For what else asks the same service, so that all keep one pace. */
  readonly context: GridContext;
  /** Each host and kind of resource asked so far, and whether it is left alone after failures in a row. */
  lines(): LineState[];
}

/**
 * A source that pulls any place the NWS covers, configured or not. Throws ServiceError `config_invalid` where contact or
 * base URL cannot be used.
 */
export function createNwsSource(options: NwsSourceOptions): NwsSource {
  const http = makeHttp(httpOptions(options));
  const { nowMs, log } = options;
  const readGrid = makeGridReader(GRIDS_DECODED);
  const context: GridContext = { http, baseUrl: baseUrlOf(options), readGrid, nowMs, log };
  const limitsOf = (signal: AbortSignal): PullLimits => ({
    deadlineMs: options.nowMs() + (options.pullDeadlineMs ?? PULL_DEADLINE_MS),
    signal,
  });
  const asking = makeAsking(context, options.alertsBefore ?? new Map());
  const closing = new AbortController();
  const signalOf = (own?: AbortSignal): AbortSignal =>
    own ? AbortSignal.any([own, closing.signal]) : closing.signal;
  // Equal questions for one place at the same time are one, so that none can overwrite a newer memory with an older.
  const pulls = makeShared<Pulled>();
  const alertsAlone = makeShared<AlertsSeen>();
  return {
    name: 'nws',
    grid: makeGridSource(context, (signal) => limitsOf(signalOf(signal))),
    context,
    lines: http.lines,
    async pull(place, signal) {
      const pulled = await pulls.join(placePath(place), signalOf(signal), (own) =>
        asking.pull(place, limitsOf(own)),
      );
      return { ...pulled, point: { ...pulled.point, place } };
    },
    async alerts(place, signal) {
      return await alertsAlone.join(placePath(place), signalOf(signal), (own) =>
        asking.alerts(place, limitsOf(own)),
      );
    },
    close() {
      closing.abort(new ServiceError('source_unreachable', 'the source is closed', { retryable: true }));
      return http.close();
    },
  };
}

/** The questions themselves, on one memory. */
function makeAsking(context: GridContext, alertsBefore: ReadonlyMap<string, unknown>) {
  const memory = makePlaceMemory(MOST_PLACES, alertsBefore);
  const underWay = makeShared<AlertsSeen>();

  const alertsAt = (point: KnownPoint, limits: PullLimits): Promise<AlertsSeen> => {
    const key = placePath(point.point.place);
    const codes = point.point.zones.map(({ code }) => code);
    return underWay.join([key, ...codes].join(' '), limits.signal, async (signal) => {
      const own = { ...limits, signal };
      const found = await pullAlerts(context, point, memory.of(key).alerts, own);
      // A query that was called off looks like one that failed: nothing may be learnt from it.
      signal.throwIfAborted();
      memory.remember(key, { alerts: found.remembered });
      const { fetchedAtMs, complete, remembered } = found;
      return { fetchedAtMs, complete, alerts: remembered.map(({ alert }) => alert) };
    });
  };

  return {
    async alerts(place: Place, limits: PullLimits): Promise<AlertsSeen> {
      const key = placePath(place);
      const point = await pullPoint(context, place, memory.of(key).point, limits);
      memory.remember(key, { point });
      return await alertsAt(point, limits);
    },
    async pull(place: Place, limits: PullLimits): Promise<Pulled> {
      const key = placePath(place);
      const before = memory.of(key);
      const known = await pullPoint(context, place, before.point, limits);
      memory.remember(key, { point: known });
      const { point, held } = await pullGrid(context, place, known, before.grid, limits);
      memory.remember(key, { point, grid: held });
      return {
        point: point.point,
        forecast: held.reading.forecast,
        gridpointBytes: held.bytes,
        alerts: await alertsAt(point, limits),
      };
    },
  };
}

function httpOptions(options: NwsSourceOptions): HttpOptions {
  const { baseUrl: _, alertsBefore: __, contact, pace = NWS_PACE, ...rest } = options;
  if (!isUsableContact(contact)) {
    throw new ServiceError('config_invalid', 'the contact for the NWS API must be a mail address or a URL');
  }
  return { ...rest, pace, userAgent: `Pitward/0.1 (${contact})`, accept: 'application/geo+json' };
}

function baseUrlOf({ baseUrl = NWS_BASE_URL }: NwsSourceOptions): string {
  if (!/^https?:\/\//.test(baseUrl) || !URL.canParse(baseUrl)) {
    throw new ServiceError('config_invalid', `the base URL of the NWS API cannot be used: ${baseUrl}`);
  }
  return baseUrl.replace(/\/+$/, '');
}
