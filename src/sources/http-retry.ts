// When a failed request is tried again, and after how long. Pure: the clock and the dice are arguments.

/** What went wrong with one request. */
export interface HttpFailure {
  /** Null where no answer came at all: refused connection, reset, timeout. */
  readonly status: number | null;
  /** Last segment of the problem's type, `UnexpectedProblem`; null where there is none. */
  readonly problem: string | null;
  /** What the server asked to wait [ms]. */
  readonly retryAfterMs: number | null;
  /** True for a 200 whose body was no JSON: an outage page of a gateway. */
  readonly unreadable: boolean;
}

/** Waits before the tries after the first [ms], each ±50 %. */
const BACKOFF_MS = [2_000, 8_000, 20_000];
/** How long a host is left alone after it refused us [ms], by refusals in a row. */
const REFUSAL_PAUSES_MS = [10_000, 60_000, 600_000];
/** Said of a whole office's grid; it lasts, so asking again within seconds only adds load. */
const LASTING_PROBLEMS = new Set(['ForecastGridExpired', 'ForecastGridInvalid']);

/**
 * How long to wait before the next try [ms], or null where another try would not help. `tries` counts those that
 * failed; `random` gives 0 … 1.
 */
export function retryWaitMs(failure: HttpFailure, tries: number, random: () => number): number | null {
  const base = BACKOFF_MS[tries - 1];
  if (base === undefined || !isPassing(failure)) return null;
  return Math.max(Math.round(base * (0.5 + random())), failure.retryAfterMs ?? 0);
}

/** True for faults that often pass within seconds. */
export function isPassing({ status, problem, unreadable }: HttpFailure): boolean {
  if (status === null || unreadable) return true;
  if (problem !== null && LASTING_PROBLEMS.has(problem)) return false;
  return status === 408 || status === 500 || status === 502 || status === 503 || status === 504;
}

/** True for faults that speak against the whole host; one said of a grid by name does not. */
export function isHostFault({ status, problem, unreadable }: HttpFailure): boolean {
  if (status === null || unreadable) return true;
  return status >= 500 && !(problem !== null && LASTING_PROBLEMS.has(problem));
}

/** True where the host asks us to keep away: too many requests, or blocked. */
export const isRefusal = (status: number | null): boolean => status === 429 || status === 403;

/** How long a host is left alone after so many refusals in a row [ms]. */
export function refusalPauseMs(refusals: number, retryAfterMs: number | null): number {
  const pause = REFUSAL_PAUSES_MS[Math.min(refusals, REFUSAL_PAUSES_MS.length) - 1] ?? 0;
  return Math.max(pause, retryAfterMs ?? 0);
}

/** `Retry-After` as a span [ms]: seconds or an HTTP date (RFC 9110, 10.2.3); null where there is none to be read. */
export function retryAfterMs(header: string | null, nowMs: number): number | null {
  if (header === null) return null;
  if (/^\s*\d{1,9}\s*$/.test(header)) return Number(header) * 1000;
  const atMs = httpDateMs(header);
  return atMs === null ? null : Math.max(0, atMs - nowMs);
}

/** An HTTP date, `Mon, 02 Mar 2026 18:20:00 GMT` (RFC 9110, 5.6.7), as epoch ms; null where it is none. */
export function httpDateMs(header: string | null): number | null {
  if (header === null || !/^[A-Z][a-z]{2}, \d{2} [A-Z][a-z]{2} \d{4} \d{2}:\d{2}:\d{2} GMT$/.test(header))
    return null;
  const ms = Date.parse(header);
  return Number.isNaN(ms) ? null : ms;
}
