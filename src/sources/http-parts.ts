// What the parts of the polite GET share.

import type { Dispatcher } from 'undici';
import type { Breaker } from './http-breaker.ts';
import type { HttpCache } from './http-cache.ts';
import type { HostGate } from './http-gate.ts';
import type { NextTurn, Pace, Pacer } from './http-pace.ts';
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
  /** Where many processes keep to the pace together. */
  readonly nextTurn?: NextTurn;
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
  /** Where this answer may be larger than others. */
  readonly maxBytes?: number;
  /** The kind of what is asked for, `gridpoints`: each fails, and is left alone, for itself. */
  readonly kind?: string;
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

export interface Parts {
  readonly options: HttpOptions;
  readonly requestTimeoutMs: number;
  readonly dispatcher: Dispatcher;
  readonly cache: HttpCache;
  readonly gate: HostGate;
  readonly pacer: Pacer | null;
  readonly breaker: Breaker;
}

export interface Ask {
  readonly deadlineMs: number;
  readonly signal: AbortSignal;
  readonly anew: boolean;
  readonly kind: string;
  readonly maxBytes: number;
}
