// One question for official alerts, asked again past the caches where the answer is old.

import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf, ServiceError } from '#errors.ts';
import type { HttpAnswer } from '#sources/http-parts.ts';
import { type AlertList, readAlertCollection } from './alerts.ts';
import { getPath, type NwsContext, type PullLimits } from './context.ts';

export interface AnsweredList extends AlertList {
  readonly confirmedAtMs: number;
}

/** The list; null, and told, where it cannot be had. */
export async function askAlerts(
  context: NwsContext,
  path: string,
  limits: PullLimits,
): Promise<AnsweredList | null> {
  try {
    return await freshList(context, path, limits);
  } catch (fault) {
    context.http.forget(`${context.baseUrl}${path}`);
    context.log.warn(
      { path },
      `official alerts not read, which holds everything until they are: ${messageOf(fault)}`,
    );
    return null;
  }
}

/** Messages that cancel alerts. They can only explain an absence: a failed query leaves it unexplained. */
export async function askCancelled(
  context: NwsContext,
  path: string,
  limits: PullLimits,
): Promise<AlertList | null> {
  try {
    return await freshList(context, path, limits);
  } catch (fault) {
    context.log.info({ path }, `cancelled alerts not read: ${messageOf(fault)}`);
    return null;
  }
}

/** A warning may come at any minute: no copy is believed for longer, whatever its max-age [ms]. */
const BELIEVED_MS = MINUTE_MS;
/** An answer older than this comes from a cache that sleeps [ms]. */
const SLEEPING_MS = 15 * MINUTE_MS;
/** One this old does where the list in it has not changed for long, either: no change alone is no fault [ms]. */
const DROWSY_MS = 10 * MINUTE_MS;
const UNCHANGED_MS = 30 * MINUTE_MS;

interface DatedList extends AnsweredList {
  readonly ageMs: number;
}

/** The list, asked for once more past the caches where it came old; throws where it still is. */
async function freshList(context: NwsContext, path: string, limits: PullLimits): Promise<DatedList> {
  const first = dated(await getPath(context, path, limits, { freshForMostMs: BELIEVED_MS }));
  if (!isStale(first, context.nowMs())) return first;
  const { ageMs } = first;
  context.log.info({ path, ageMs }, 'an old list of alerts: asked for once more');
  const second = dated(await getPath(context, path, limits, { anew: true }));
  if (!isStale(second, context.nowMs())) return second;
  throw new ServiceError('source_unreadable', 'the list of alerts comes from a cache that is too old', {
    retryable: true,
  });
}

const dated = ({ bytes, ageMs, confirmedAtMs }: HttpAnswer): DatedList => ({
  ageMs,
  confirmedAtMs,
  ...readAlertCollection(bytes),
});

const isStale = ({ ageMs, updatedMs }: DatedList, nowMs: number): boolean =>
  ageMs > SLEEPING_MS || (ageMs > DROWSY_MS && updatedMs !== null && nowMs - updatedMs > UNCHANGED_MS);
