// Polite HTTP GET for JSON sources: says who we are, asks conditionally, waits its turn, retries with patience, and
// never takes in more bytes or time than allowed. An error is never cached.

import { Agent, type Dispatcher, interceptors } from 'undici';
import { messageOf, ServiceError } from '#errors.ts';
import { ageOnArrivalMs, type HttpCache, type KeptAnswer, keepAnswer, makeHttpCache } from './http-cache.ts';
import { badAnswer, type FailedTry, noAnswer } from './http-fault.ts';
import { type HostGate, makeHostGate } from './http-gate.ts';
import { makePacer, type Pace } from './http-pace.ts';
import { isJsonType, safeUrl } from './http-problem.ts';
import { isRefusal, retryWaitMs } from './http-retry.ts';
import { type HttpReply, sendGet } from './http-send.ts';
import { makeShared } from './http-shared.ts';
import type { SourceLog } from './source.ts';

export interface HttpOptions {
  /** Name of the program and the operator's contact; sent with every request. */
  readonly userAgent: string;
  readonly accept: string;
  /** Further headers, such as a key; never logged. */
  readonly headers?: Readonly<Record<string, string>>;
  readonly maxBytes?: number;
  readonly requestTimeoutMs?: number;
  readonly connectTimeoutMs?: number;
  /** For a request that names no deadline of its own. */
  readonly pullDeadlineMs?: number;
  /** Null: as fast as answers come, for a server of our own. */
  readonly pace: Pace | null;
  readonly nowMs: () => number;
  readonly sleep: (ms: number, signal: AbortSignal) => Promise<void>;
  readonly random: () => number;
  readonly log: SourceLog;
  /** For tests; it is not closed with the client. */
  readonly dispatcher?: Dispatcher;
}

export interface GetOptions {
  /** No try begins and no wait ends after this [epoch ms]. */
  readonly deadlineMs?: number;
  readonly signal?: AbortSignal;
  /** A copy of ours is used without asking only this long after the service confirmed it [ms]. */
  readonly freshForMostMs?: number;
  /** Asks for the whole body anew, past any copy of ours and, by another Accept-Language, of a stale cache node. */
  readonly anew?: boolean;
}

export interface HttpAnswer {
  readonly bytes: Uint8Array;
  readonly receivedAtMs: number;
  readonly confirmedAtMs: number;
  /** How long ago the service confirmed it, the time in caches on the way included [ms]. */
  readonly ageMs: number;
  readonly etag: string | null;
  readonly lastModified: string | null;
  /** True where no new body came: still within its max-age, or confirmed with 304. */
  readonly reused: boolean;
}

export interface HttpClient {
  /** Gets JSON bytes. Throws ServiceError `source_…`; its facts carry status, problem, correlationId and url. */
  get(url: string, options?: GetOptions): Promise<HttpAnswer>;
  /** Takes over an answer that was kept elsewhere, so that the next request is conditional; a newer one here stays. */
  recall(url: string, kept: Omit<KeptAnswer, 'freshUntilMs'>): void;
  /** Drops what is kept of a URL, so that the next request is unconditional: for a body that could not be read. */
  forget(url: string): void;
  close(): Promise<void>;
}

const MEBIBYTE = 1_048_576;
const AT_ONCE = 2;

export function makeHttp(options: HttpOptions): HttpClient {
  const maxBytes = options.maxBytes ?? 8 * MEBIBYTE;
  const requestTimeoutMs = options.requestTimeoutMs ?? 20_000;
  const base = options.dispatcher ?? makeAgent(requestTimeoutMs, options.connectTimeoutMs ?? 5_000);
  const decompress = interceptors.decompress({ maxSize: maxBytes, skipErrorResponses: false });
  const parts: Parts = {
    options,
    maxBytes,
    requestTimeoutMs,
    dispatcher: base.compose(decompress),
    cache: makeHttpCache(64 * MEBIBYTE),
    gate: makeHostGate(AT_ONCE, options.pace && makePacer(options.pace, options)),
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
    async close() {
      // Whoever still waits, or waits to try again, is told at once.
      closed.abort(new ServiceError('source_unreachable', 'the client is closed', { retryable: true }));
      if (!options.dispatcher) await base.destroy();
    },
  };
}

const makeAgent = (requestTimeoutMs: number, connectTimeoutMs: number): Agent =>
  new Agent({
    connections: AT_ONCE,
    connect: { timeout: connectTimeoutMs },
    headersTimeout: requestTimeoutMs,
    bodyTimeout: requestTimeoutMs,
  });

interface Parts {
  readonly options: HttpOptions;
  readonly maxBytes: number;
  readonly requestTimeoutMs: number;
  readonly dispatcher: Dispatcher;
  readonly cache: HttpCache;
  readonly gate: HostGate;
}

interface Ask {
  readonly deadlineMs: number;
  readonly signal: AbortSignal;
  readonly anew: boolean;
}

/** Tries until an answer comes, the fault is one that lasts, or the deadline leaves no room for another wait. */
async function getPatiently(parts: Parts, url: URL, ask: Ask): Promise<HttpAnswer> {
  const { options, gate } = parts;
  for (let tries = 1; ; tries += 1) {
    await waitOutPause(parts, url, ask);
    const outcome = await gate.run(url.host, ask.signal, () => tryOnce(parts, url, ask));
    if ('answer' in outcome) return outcome.answer;
    ask.signal.throwIfAborted();
    const { failure, fault } = outcome;
    const refused = isRefusal(failure.status);
    const pauseMs = refused ? gate.refused(url.host, options.nowMs(), failure.retryAfterMs) : null;
    const waitMs = pauseMs ?? retryWaitMs(failure, tries, options.random);
    const inTime = waitMs !== null && options.nowMs() + waitMs < ask.deadlineMs;
    const next = inTime ? `trying again in ${secondsText(waitMs)}` : givenUp(tries);
    options.log.warn({ ...fault.facts, tries, waitMs: inTime ? waitMs : null }, `${fault.message}; ${next}`);
    if (!inTime) throw fault;
    if (!refused) await rest(parts, waitMs, ask.signal);
  }
}

const secondsText = (ms: number): string => (ms < 1_000 ? 'under a second' : `${Math.round(ms / 1_000)} s`);

const givenUp = (tries: number): string => `given up after ${tries === 1 ? 'one try' : `${tries} tries`}`;

/** Waits until a host that refused us may be asked again; throws where that is past the deadline. */
async function waitOutPause({ options, gate }: Parts, url: URL, ask: Ask): Promise<void> {
  for (;;) {
    const untilMs = gate.pausedUntilMs(url.host);
    const nowMs = options.nowMs();
    if (untilMs <= nowMs) return;
    if (untilMs >= ask.deadlineMs) {
      throw new ServiceError('source_refused', `${url.host} refused us and is left alone for now`, {
        retryable: true,
        facts: { url: safeUrl(url), leftAloneMs: untilMs - nowMs },
      });
    }
    await rest({ options }, untilMs - nowMs, ask.signal);
  }
}

async function rest({ options }: Pick<Parts, 'options'>, ms: number, signal: AbortSignal): Promise<void> {
  try {
    await options.sleep(ms, signal);
  } catch (fault) {
    // Timers tell of an abort in words of their own; the reason given is the one to hear.
    signal.throwIfAborted();
    throw fault;
  }
  signal.throwIfAborted();
}

type Outcome = { readonly answer: HttpAnswer } | FailedTry;

async function tryOnce(parts: Parts, url: URL, ask: Ask): Promise<Outcome> {
  const { options, cache, gate } = parts;
  const leftMs = ask.deadlineMs - options.nowMs();
  const timeout = AbortSignal.timeout(Math.max(1, Math.min(parts.requestTimeoutMs, leftMs)));
  const kept = ask.anew ? null : cache.get(url.href);
  let reply: HttpReply;
  try {
    reply = await sendGet(url, {
      dispatcher: parts.dispatcher,
      headers: requestHeaders(options, kept, ask.anew),
      maxBytes: parts.maxBytes,
      signal: AbortSignal.any([timeout, ask.signal]),
    });
  } catch (fault) {
    ask.signal.throwIfAborted();
    if (fault instanceof ServiceError) throw fault;
    return noAnswer(url, timeout.aborted ? 'took too long' : messageOf(fault), fault);
  }
  if (reply.status === 304 && kept) {
    gate.answered(url.host);
    const nowMs = options.nowMs();
    const confirmed = { ...kept, confirmedAtMs: nowMs - ageOnArrivalMs(reply.headers, nowMs) };
    cache.keep(url.href, confirmed);
    return { answer: answerOf(confirmed, true, nowMs) };
  }
  const contentType = reply.headers['content-type'] ?? '';
  if (reply.status !== 200 || !isJsonType(contentType) || /problem\+json/i.test(contentType)) {
    return badAnswer(url, reply, options.nowMs());
  }
  gate.answered(url.host);
  const nowMs = options.nowMs();
  return { answer: answerOf(keepAnswer(cache, url.href, reply, nowMs), false, nowMs) };
}

function requestHeaders(
  options: HttpOptions,
  kept: KeptAnswer | null,
  anew: boolean,
): Record<string, string> {
  return {
    ...options.headers,
    'user-agent': options.userAgent,
    accept: options.accept,
    'accept-encoding': 'gzip',
    ...(anew ? { 'accept-language': 'en-US' } : {}),
    ...(kept?.etag ? { 'if-none-match': kept.etag } : {}),
    ...(kept?.lastModified ? { 'if-modified-since': kept.lastModified } : {}),
  };
}

const answerOf = (kept: KeptAnswer, reused: boolean, nowMs: number): HttpAnswer => ({
  bytes: kept.bytes,
  receivedAtMs: kept.receivedAtMs,
  confirmedAtMs: kept.confirmedAtMs,
  ageMs: Math.max(0, nowMs - kept.confirmedAtMs),
  etag: kept.etag,
  lastModified: kept.lastModified,
  reused,
});
