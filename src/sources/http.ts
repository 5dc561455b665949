// Polite HTTP GET for JSON sources: says who we are, asks conditionally, waits its turn, retries with patience, leaves a
// host alone that is down, and never takes in more bytes or time than allowed. An error is never cached.

import { Agent, interceptors } from 'undici';
import { ServiceError } from '#errors.ts';
import { type LineState, makeBreaker } from './http-breaker.ts';
import { type KeptAnswer, makeHttpCache } from './http-cache.ts';
import { makeHostGate } from './http-gate.ts';
import { makePacer, makeSharedPacer, type Pacer } from './http-pace.ts';
import type { GetOptions, HttpAnswer, HttpOptions, Parts } from './http-parts.ts';
import { getPatiently } from './http-patience.ts';
import { makeShared } from './http-shared.ts';
import { answerOf } from './http-try.ts';

export interface HttpClient {
  /** Gets JSON bytes. Throws ServiceError `source_…`; its facts carry status, problem, correlationId and url. */
  get(url: string, options?: GetOptions): Promise<HttpAnswer>;
  /** Takes over an answer that was kept elsewhere, so that the next request is conditional; a newer one here stays. */
  recall(url: string, kept: Omit<KeptAnswer, 'freshUntilMs'>): void;
  /** Drops what is kept of a URL, so that the next request is unconditional: for a body that could not be read. */
  forget(url: string): void;
  /** Each host and kind of resource asked so far, and whether it is left alone. */
  lines(): LineState[];
  close(): Promise<void>;
}

const MEBIBYTE = 1_048_576;
/** Whatever is asked for. Each request has its own, lesser limit. */
const MOST_BYTES = 48 * MEBIBYTE;
const AT_ONCE = 2;

export function makeHttp(options: HttpOptions): HttpClient {
  const maxBytes = options.maxBytes ?? 8 * MEBIBYTE;
  const requestTimeoutMs = options.requestTimeoutMs ?? 20_000;
  const base = options.dispatcher ?? makeAgent(requestTimeoutMs, options.connectTimeoutMs ?? 5_000);
  const decompress = interceptors.decompress({
    maxSize: Math.max(maxBytes, MOST_BYTES),
    skipErrorResponses: false,
  });
  const parts: Parts = {
    options,
    requestTimeoutMs,
    dispatcher: base.compose(decompress),
    cache: makeHttpCache(64 * MEBIBYTE),
    gate: makeHostGate(AT_ONCE),
    pacer: pacerOf(options),
    breaker: makeBreaker(options.nowMs),
  };
  const shared = makeShared<HttpAnswer>();
  const closed = new AbortController();
  return {
    get(address, get = {}) {
      if (closed.signal.aborted) return Promise.reject(closed.signal.reason);
      const url = new URL(address);
      const kept = get.anew ? null : parts.cache.get(url.href);
      const sinceMs = kept ? options.nowMs() - kept.confirmedAtMs : 0;
      const isFresh =
        kept && kept.freshUntilMs > options.nowMs() && sinceMs <= (get.freshForMostMs ?? Infinity);
      if (kept && isFresh) return Promise.resolve(answerOf(kept, true, options.nowMs()));
      const deadlineMs = get.deadlineMs ?? options.nowMs() + (options.pullDeadlineMs ?? 120_000);
      return shared.join(`${get.anew ? 'anew ' : ''}${url.href}`, get.signal, (signal) =>
        getPatiently(parts, url, {
          deadlineMs,
          signal: AbortSignal.any([signal, closed.signal]),
          anew: get.anew ?? false,
          kind: get.kind ?? '',
          maxBytes: Math.min(MOST_BYTES, get.maxBytes ?? maxBytes),
        }),
      );
    },
    recall(url, kept) {
      const { href } = new URL(url);
      const known = parts.cache.get(href);
      if (known && known.confirmedAtMs >= kept.confirmedAtMs) return;
      parts.cache.keep(href, { ...kept, freshUntilMs: 0 });
    },
    forget: (url) => parts.cache.forget(new URL(url).href),
    lines: () => parts.breaker.states(),
    async close() {
      // Whoever still waits, or waits to try again, is told at once.
      closed.abort(new ServiceError('source_unreachable', 'the client is closed', { retryable: true }));
      if (!options.dispatcher) await base.destroy();
    },
  };
}

function pacerOf(options: HttpOptions): Pacer | null {
  const { pace, nextTurn } = options;
  if (pace === null) return null;
  return nextTurn ? makeSharedPacer(pace, nextTurn, options) : makePacer(pace, options);
}

const makeAgent = (requestTimeoutMs: number, connectTimeoutMs: number): Agent =>
  new Agent({
    connections: AT_ONCE,
    connect: { timeout: connectTimeoutMs },
    headersTimeout: requestTimeoutMs,
    bodyTimeout: requestTimeoutMs,
  });
