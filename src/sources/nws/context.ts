// What the parts of one pull share.

import type { HttpClient } from '#sources/http.ts';
import type { HttpAnswer } from '#sources/http-parts.ts';
import type { SourceLog } from '#sources/source.ts';
import type { GridReader } from './grid-reader.ts';

export interface NwsContext {
  readonly http: HttpClient;
  /** Without a trailing slash, `https://api.weather.gov`. */
  readonly baseUrl: string;
  readonly nowMs: () => number;
  readonly log: SourceLog;
}

/** What the parts that read grids share beside it. */
export interface GridContext extends NwsContext {
  readonly readGrid: GridReader;
}

/** Limits of one pull. */
export interface PullLimits {
  readonly deadlineMs: number;
  readonly signal: AbortSignal | undefined;
  /** For answers that may be larger than others. */
  readonly maxBytes?: number;
}

export async function getPath(
  { http, baseUrl }: NwsContext,
  path: string,
  { deadlineMs, signal, maxBytes }: PullLimits,
  { anew = false, freshForMostMs }: { readonly anew?: boolean; readonly freshForMostMs?: number } = {},
): Promise<HttpAnswer> {
  return http.get(`${baseUrl}${path}`, {
    deadlineMs,
    anew,
    kind: path.split(/[/?]/)[1] ?? '',
    ...(signal ? { signal } : {}),
    ...(maxBytes === undefined ? {} : { maxBytes }),
    ...(freshForMostMs === undefined ? {} : { freshForMostMs }),
  });
}

/** Status of the answer behind a fault; null where there was none. */
export function statusOf(fault: unknown): number | null {
  const facts = typeof fault === 'object' && fault !== null && 'facts' in fault ? fault.facts : null;
  const status = typeof facts === 'object' && facts !== null && 'status' in facts ? facts.status : null;
  return typeof status === 'number' ? status : null;
}
