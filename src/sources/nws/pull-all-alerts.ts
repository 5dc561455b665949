// The official alerts of many places from one list of all that stand: the service is asked once, whatever their number.

import { indexAlerts } from './alert-index.ts';
import type { RememberedAlert } from './alert-memory.ts';
import type { AlertCollection, AlertsReading } from './alerts.ts';
import { type AnsweredList, askAlerts, askCancelled } from './ask-alerts.ts';
import type { NwsContext, PullLimits } from './context.ts';
import type { PointReading } from './point.ts';
import { concludeAlerts, logLeftOut, type PulledAlerts } from './pull-alerts.ts';

export interface AskingPlace {
  readonly own: PointReading;
  readonly before: readonly RememberedAlert[];
}

const MEBIBYTE = 1_048_576;
/** Recorded lists have 246 and 396 alerts of 4 kB each; this holds some eight thousand. */
const MOST_BYTES = 32 * MEBIBYTE;
/** Each takes about a tenth of a millisecond, and others are waiting to be answered. */
const AT_ONCE = 200;

/**
 * The alerts of each place, in their order: the same as `pullAlerts` gives for each. A list that cannot be had, or may not
 * be whole, is so for every place.
 */
export async function pullAllAlerts(
  context: NwsContext,
  places: readonly AskingPlace[],
  limits: PullLimits,
): Promise<PulledAlerts[]> {
  const wide = { ...limits, maxBytes: MOST_BYTES };
  const list = await askAlerts(context, '/alerts/active', wide);
  const complete = list !== null && isWhole(context, list);
  const standing = indexAlerts(list?.features ?? []);
  // Asked for once, by the first place that misses an alert.
  let cancelled: Promise<ReturnType<typeof indexAlerts> | null> | null = null;
  const askOnce = async () => {
    const found = await askCancelled(context, '/alerts/active?message_type=cancel', wide);
    return found && indexAlerts(found.features);
  };
  const nowMs = context.nowMs();
  const leftOut = new Map<string, AlertsReading['dropped'][number]>();
  const conclude = async ({ own, before }: AskingPlace): Promise<PulledAlerts> => {
    const { zones, place } = own.point;
    const listOf = (index: typeof standing): AlertCollection => ({
      query: 'all',
      features: index.of(zones, place),
    });
    const { dropped, ...pulled } = await concludeAlerts(own, before, {
      collections: [listOf(standing)],
      complete,
      fetchedAtMs: Math.min(nowMs, list?.confirmedAtMs ?? nowMs),
      nowMs,
      async cancelled() {
        cancelled ??= askOnce();
        const index = await cancelled;
        return index === null ? [] : [listOf(index)];
      },
    });
    for (const one of dropped) leftOut.set(`${one.id} ${one.reason}`, one);
    return pulled;
  };
  const pulled: PulledAlerts[] = [];
  for (let i = 0; i < places.length; i += AT_ONCE) {
    pulled.push(...(await Promise.all(places.slice(i, i + AT_ONCE).map(conclude))));
    await new Promise((resolve) => setImmediate(resolve));
  }
  logLeftOut(context, [...leftOut.values()]);
  return pulled;
}

/** Somewhere in the country some alert always stands: a list without any was cut, or is of something else. */
function isWhole({ log }: NwsContext, { whole, features }: AnsweredList): boolean {
  if (whole && features.length > 0) return true;
  log.warn(
    { count: features.length },
    'the list of all official alerts may not be whole, which holds everything until it is',
  );
  return false;
}
