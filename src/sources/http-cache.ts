// Answers kept for conditional requests and for their own max-age. Only answers with status 200 ever get here.

import { httpDateMs } from './http-retry.ts';
import type { HttpReply } from './http-send.ts';

export interface KeptAnswer {
  readonly bytes: Uint8Array;
  /** When the body came [epoch ms]. */
  readonly receivedAtMs: number;
  /** When the server last said that it is the newest: on receipt or with a 304, less the age it then had [epoch ms]. */
  readonly confirmedAtMs: number;
  /** Until when it may be used without asking. */
  readonly freshUntilMs: number;
  readonly etag: string | null;
  readonly lastModified: string | null;
}

export interface HttpCache {
  get(url: string): KeptAnswer | null;
  keep(url: string, answer: KeptAnswer): void;
  forget(url: string): void;
}

/** Keeps at most `mostBytes` of bodies; the longest unused go first. */
export function makeHttpCache(mostBytes: number): HttpCache {
  const kept = new Map<string, KeptAnswer>();
  let total = 0;
  const forget = (url: string): void => {
    total -= kept.get(url)?.bytes.byteLength ?? 0;
    kept.delete(url);
  };
  return {
    get(url) {
      const answer = kept.get(url) ?? null;
      if (answer) {
        kept.delete(url);
        kept.set(url, answer);
      }
      return answer;
    },
    keep(url, answer) {
      forget(url);
      kept.set(url, answer);
      total += answer.bytes.byteLength;
      for (const oldest of kept.keys()) {
        if (total <= mostBytes) break;
        forget(oldest);
      }
    },
    forget,
  };
}

/** Keeps a new answer where it may be kept, and drops what was kept of its URL where not. */
export function keepAnswer(
  cache: HttpCache,
  url: string,
  { headers, bytes }: Pick<HttpReply, 'headers' | 'bytes'>,
  nowMs: number,
): KeptAnswer {
  const freshMs = freshForMs(headers['cache-control'] ?? null, headers['age'] ?? null);
  const answer: KeptAnswer = {
    bytes,
    receivedAtMs: nowMs,
    confirmedAtMs: nowMs - ageOnArrivalMs(headers, nowMs),
    freshUntilMs: nowMs + (freshMs ?? 0),
    etag: headers['etag'] ?? null,
    lastModified: usableLastModified(headers['last-modified'] ?? null, headers['date'] ?? null, nowMs),
  };
  if (freshMs === null) cache.forget(url);
  else cache.keep(url, answer);
  return answer;
}

/** No body is believed for longer than this without asking, whatever its header says [ms]. */
const LONGEST_FRESH_MS = 3_600_000;

/**
 * How long a body may be used without asking again [ms]: max-age less the age that it already had on the way (RFC 9111,
 * 4.2), never more than an hour. Null where it must not be kept.
 */
function freshForMs(cacheControl: string | null, age: string | null): number | null {
  const text = (cacheControl ?? '').toLowerCase();
  if (/\bno-store\b/.test(text)) return null;
  const match = /(?:^|[\s,])max-age=(\d{1,9})/.exec(text);
  if (!match || /\bno-cache\b/.test(text)) return 0;
  const ageMs = age !== null && /^\d{1,9}$/.test(age) ? Number(age) * 1000 : 0;
  return Math.min(LONGEST_FRESH_MS, Math.max(0, Number(match[1]) * 1000 - ageMs));
}

/**
 * `Last-Modified` where it may serve as a validator. One later than the answer's own date is wrong, and asking with it
 * would be answered 304 for days while newer forecasts exist.
 */
function usableLastModified(lastModified: string | null, date: string | null, nowMs: number): string | null {
  const modifiedMs = httpDateMs(lastModified);
  return modifiedMs !== null && modifiedMs <= (httpDateMs(date) ?? nowMs) ? lastModified : null;
}

/** A `Date` no farther behind our clock than this tells of clocks that differ, not of a cache that sleeps [ms]. */
const CLOCKS_DIFFER_MS = 900_000;

/**
 * How old an answer was when it came [ms]: by `Age` (RFC 9111, 5.1), or by a `Date` that lies far behind our clock, since
 * not every cache on the way tells the age.
 */
export function ageOnArrivalMs(headers: HttpReply['headers'], nowMs: number): number {
  const age = headers['age'] ?? '';
  const toldMs = /^\d{1,9}$/.test(age) ? Number(age) * 1000 : 0;
  const dateMs = httpDateMs(headers['date'] ?? null);
  const behindMs = dateMs === null ? 0 : nowMs - dateMs;
  return behindMs > CLOCKS_DIFFER_MS ? Math.max(toldMs, behindMs) : toldMs;
}
