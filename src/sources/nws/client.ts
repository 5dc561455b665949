// The NWS API as a forecast source: point, grid and alerts of any place in one pull. What it remembers between pulls
// (cell, newest grid, alerts) only ever makes an answer more careful.

import type { Dispatcher } from 'undici';
import type { AlertsSeen } from '#core/series/official-alert.ts';
import type { Place } from '#core/site/site.ts';
import { ServiceError } from '#errors.ts';
import { type HttpOptions, makeHttp } from '#sources/http.ts';
import { makeShared } from '#sources/http-shared.ts';
import type { ForecastSource, Pulled, SourceLog } from '#sources/source.ts';
import type { RememberedAlert } from './alert-memory.ts';
import type { NwsContext } from './context.ts';
import type { HeldGrid } from './newest-grid.ts';
import { placePath } from './point.ts';
import { pullAlerts } from './pull-alerts.ts';
import { pullGrid } from './pull-grid.ts';
import { type KnownPoint, pullPoint } from './pull-point.ts';

export interface NwsSourceOptions {
  /** `https://api.weather.gov`; another one for a mirror or a test. */
  readonly baseUrl?: string;
  /** Mail address or URL by which the service's operators reach ours; required by them. */
  readonly contact: string;
  /** Further headers, such as a key; never logged. */
  readonly headers?: Readonly<Record<string, string>>;
  readonly pullDeadlineMs?: number;
  readonly requestTimeoutMs?: number;
  readonly connectTimeoutMs?: number;
  readonly maxBytes?: number;
  readonly nowMs: () => number;
  /** Waits; rejects, or returns at once, when the signal is aborted. */
  readonly sleep: (ms: number, signal: AbortSignal) => Promise<void>;
  /** 0 … 1, for the jitter of retries. */
  readonly random: () => number;
  readonly log: SourceLog;
  readonly dispatcher?: Dispatcher;
}

export const NWS_BASE_URL = 'https://api.weather.gov';
const PULL_DEADLINE_MS = 120_000;
/** Places remembered at once, each with its document of some 200 kB; the longest unused go first. */
const MOST_PLACES = 500;

interface PlaceMemory {
  readonly point: KnownPoint | null;
  readonly grid: HeldGrid | null;
  readonly alerts: readonly RememberedAlert[];
}

const NOTHING: PlaceMemory = { point: null, grid: null, alerts: [] };

/**
 * A source that pulls any place the NWS covers, configured or not. Throws ServiceError `config_invalid` where contact or
 * base URL cannot be used.
 */
export function createNwsSource(options: NwsSourceOptions): ForecastSource {
  const http = makeHttp(httpOptions(options));
  const context: NwsContext = { http, baseUrl: baseUrlOf(options), nowMs: options.nowMs, log: options.log };
  const memory = new Map<string, PlaceMemory>();
  const remember = (key: string, found: Partial<PlaceMemory>): void => {
    const whole = { ...(memory.get(key) ?? NOTHING), ...found };
    memory.delete(key);
    memory.set(key, whole);
    const oldest = memory.keys().next();
    if (memory.size > MOST_PLACES && !oldest.done) memory.delete(oldest.value);
  };

  async function alertsAlone(place: Place, signal?: AbortSignal): Promise<AlertsSeen> {
    const key = placePath(place);
    const limits = { deadlineMs: options.nowMs() + (options.pullDeadlineMs ?? PULL_DEADLINE_MS), signal };
    const before = memory.get(key) ?? NOTHING;
    const point = await pullPoint(context, place, before.point, limits);
    const { complete, fetchedAtMs, remembered } = await pullAlerts(context, point, before.alerts, limits);
    signal?.throwIfAborted();
    remember(key, { point, alerts: remembered });
    return { fetchedAtMs, complete, alerts: remembered.map(({ alert }) => alert) };
  }

  async function pullOnce(place: Place, key: string, signal: AbortSignal): Promise<Pulled> {
    const limits = { deadlineMs: options.nowMs() + (options.pullDeadlineMs ?? PULL_DEADLINE_MS), signal };
    const before = memory.get(key) ?? NOTHING;
    const known = await pullPoint(context, place, before.point, limits);
    remember(key, { point: known });
    const { point, held } = await pullGrid(context, place, known, before.grid, limits);
    remember(key, { point, grid: held });
    const { complete, fetchedAtMs, remembered } = await pullAlerts(context, point, before.alerts, limits);
    signal.throwIfAborted();
    remember(key, { alerts: remembered });
    return {
      point: point.point,
      forecast: held.reading.forecast,
      gridpointBytes: held.bytes,
      alerts: { fetchedAtMs, complete, alerts: remembered.map(({ alert }) => alert) },
    };
  }

  // Pulls of one place at the same time are one, so that none can overwrite a newer memory with an older.
  const shared = makeShared<Pulled>();
  async function pull(place: Place, signal?: AbortSignal): Promise<Pulled> {
    const key = placePath(place);
    const pulled = await shared.join(key, signal, (own) => pullOnce(place, key, own));
    return { ...pulled, point: { ...pulled.point, place } };
  }
  return { name: 'nws', pull, alerts: alertsAlone, close: () => http.close() };
}

function httpOptions(options: NwsSourceOptions): HttpOptions {
  const { baseUrl: _, contact, ...rest } = options;
  if (!/^[\x21-\x7e][\x20-\x7e]{2,199}$/.test(contact)) {
    throw new ServiceError('config_invalid', 'the contact for the NWS API must be a mail address or a URL');
  }
  return { ...rest, userAgent: `Pitward/0.1 (${contact})`, accept: 'application/geo+json' };
}

function baseUrlOf({ baseUrl = NWS_BASE_URL }: NwsSourceOptions): string {
  if (!/^https?:\/\//.test(baseUrl) || !URL.canParse(baseUrl)) {
    throw new ServiceError('config_invalid', `the base URL of the NWS API cannot be used: ${baseUrl}`);
  }
  return baseUrl.replace(/\/+$/, '');
}
