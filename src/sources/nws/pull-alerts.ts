// The official alerts of a place: asked for by point and by each of its zones, since fire weather alerts are issued for
// zones and the point query has missed them.

import { MINUTE_MS } from '#core/units/time.ts';
import { messageOf, ServiceError } from '#errors.ts';
import type { HttpAnswer } from '#sources/http-parts.ts';
import { isAnyUnexplained, type RememberedAlert, rememberAlerts } from './alert-memory.ts';
import { type AlertCollection, type AlertList, readAlertCollection, readAlerts } from './alerts.ts';
import { getPath, type NwsContext, type PullLimits } from './context.ts';
import { type PointReading, placePath } from './point.ts';

export interface PulledAlerts {
  readonly complete: boolean;
  /** When the oldest of the answers was last confirmed by the service [epoch ms]. */
  readonly fetchedAtMs: number;
  readonly remembered: readonly RememberedAlert[];
}

/** Never throws for a failed query: the list is then incomplete, and says so. */
export async function pullAlerts(
  context: NwsContext,
  { point, lackingZones }: PointReading,
  before: readonly RememberedAlert[],
  limits: PullLimits,
): Promise<PulledAlerts> {
  const codes = [...new Set(point.zones.map((zone) => zone.code))];
  const answers = await Promise.all([
    ask(context, 'point', `/alerts/active?point=${placePath(point.place)}`, limits),
    ...codes.map((code) => ask(context, 'zone', `/alerts/active?zone=${code}`, limits)),
  ]);
  const collections = answers.filter((answer) => answer !== null);
  const complete =
    lackingZones.length === 0 &&
    collections.length === answers.length &&
    collections.every(({ whole }) => whole);
  const nowMs = context.nowMs();
  const listed = readAlerts(collections, point.zones);
  // The list of what is active need not tell what was cancelled, so that is asked for where an alert is gone.
  const reading = isAnyUnexplained(before, listed, nowMs)
    ? readAlerts([...collections, ...(await askCancelled(context, codes, limits))], point.zones)
    : listed;
  for (const { id, event, reason } of reading.dropped) {
    if (reason !== 'elsewhere') context.log.info({ id, event, reason }, 'alert left out');
  }
  return {
    complete,
    fetchedAtMs: Math.min(nowMs, ...collections.map(({ confirmedAtMs }) => confirmedAtMs)),
    remembered: rememberAlerts(before, reading, { complete, nowMs }),
  };
}

/** Messages that cancel alerts. They can only explain an absence: a failed query leaves it unexplained. */
async function askCancelled(
  context: NwsContext,
  codes: readonly string[],
  limits: PullLimits,
): Promise<AlertCollection[]> {
  const answers = await Promise.all(
    codes.map(async (code) => {
      const path = `/alerts/active?zone=${code}&message_type=cancel`;
      try {
        return { query: 'zone' as const, ...(await freshList(context, path, limits)) };
      } catch (fault) {
        context.log.info({ path }, `cancelled alerts not read: ${messageOf(fault)}`);
        return null;
      }
    }),
  );
  return answers.filter((answer) => answer !== null);
}

interface AnsweredQuery extends AlertCollection {
  readonly whole: boolean;
  readonly confirmedAtMs: number;
}

async function ask(
  context: NwsContext,
  query: 'point' | 'zone',
  path: string,
  limits: PullLimits,
): Promise<AnsweredQuery | null> {
  try {
    return { query, ...(await freshList(context, path, limits)) };
  } catch (fault) {
    context.http.forget(`${context.baseUrl}${path}`);
    context.log.warn(
      { path },
      `official alerts not read, which holds everything until they are: ${messageOf(fault)}`,
    );
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

interface DatedList extends AlertList {
  readonly ageMs: number;
  readonly confirmedAtMs: number;
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
