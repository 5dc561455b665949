// The span of time that a question about the past is for, and the zone that its answer is told in.

import { z } from 'zod';
import { DAY_MS, type Span } from '#core/units/time.ts';
import type { DeskSite } from '#publish/desk.ts';
import { badQuery, typedInstant } from './query.ts';

export const periodQuery = z.strictObject({
  from: typedInstant.optional().describe('RFC 3339; a day ago where it is left out'),
  to: typedInstant.optional().describe('RFC 3339; now where it is left out'),
});

export type PeriodQuery = z.output<typeof periodQuery>;

const MOST_MS = 32 * DAY_MS;

/** Throws ServiceError `bad_query`. */
export function periodOf({ from, to }: PeriodQuery, nowMs: number): Span {
  const toMs = to ?? nowMs + DAY_MS;
  const fromMs = from ?? Math.min(toMs, nowMs) - DAY_MS;
  if (!(fromMs < toMs)) throw badQuery('to', 'expected a moment after from');
  if (toMs - fromMs > MOST_MS) throw badQuery('from', 'expected at most 32 days');
  return { fromMs, toMs };
}

/** UTC until the forecast point has told the site's own. */
export const zoneOf = ({ timeZone }: Pick<DeskSite, 'timeZone'>): string => timeZone ?? 'UTC';
