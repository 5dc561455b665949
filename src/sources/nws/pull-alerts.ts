// The official alerts of a place: asked for by point and by each of its zones, since fire weather alerts are issued for
// zones and the point query has missed them.

import { isAnyUnexplained, type RememberedAlert, rememberAlerts } from './alert-memory.ts';
import { type AlertCollection, type AlertsReading, readAlerts } from './alerts.ts';
import { askAlerts, askCancelled } from './ask-alerts.ts';
import type { NwsContext, PullLimits } from './context.ts';
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
  own: PointReading,
  before: readonly RememberedAlert[],
  limits: PullLimits,
): Promise<PulledAlerts> {
  const codes = zoneCodes(own);
  const questions = [
    { query: 'point' as const, path: `/alerts/active?point=${placePath(own.point.place)}` },
    ...codes.map((code) => ({ query: 'zone' as const, path: `/alerts/active?zone=${code}` })),
  ];
  const answers = await Promise.all(
    questions.map(async ({ query, path }) => {
      const list = await askAlerts(context, path, limits);
      return list && { query, ...list };
    }),
  );
  const collections = answers.filter((answer) => answer !== null);
  const nowMs = context.nowMs();
  const { dropped, ...pulled } = await concludeAlerts(own, before, {
    collections,
    complete: collections.length === answers.length && collections.every(({ whole }) => whole),
    fetchedAtMs: Math.min(nowMs, ...collections.map(({ confirmedAtMs }) => confirmedAtMs)),
    nowMs,
    cancelled: () => cancelledIn(context, codes, limits),
  });
  logLeftOut(context, dropped);
  return pulled;
}

/** Zones of several kinds may share a code. */
export const zoneCodes = ({ point }: PointReading): string[] => [
  ...new Set(point.zones.map((zone) => zone.code)),
];

async function cancelledIn(
  context: NwsContext,
  codes: readonly string[],
  limits: PullLimits,
): Promise<AlertCollection[]> {
  const lists = await Promise.all(
    codes.map((code) => askCancelled(context, `/alerts/active?zone=${code}&message_type=cancel`, limits)),
  );
  return lists.flatMap((list) => (list === null ? [] : [{ query: 'zone' as const, ...list }]));
}

export interface AlertAnswers {
  readonly collections: readonly AlertCollection[];
  readonly complete: boolean;
  readonly fetchedAtMs: number;
  readonly nowMs: number;
  /**
   * Asks for the messages that cancel alerts: the list of what is active need not tell what was cancelled, so that it is
   * asked for where an alert is gone.
   */
  readonly cancelled: () => Promise<readonly AlertCollection[]>;
}

/** What the answers say of a place, with what was known of it before. */
export async function concludeAlerts(
  { point, lackingZones }: PointReading,
  before: readonly RememberedAlert[],
  { collections, fetchedAtMs, nowMs, cancelled, ...answers }: AlertAnswers,
): Promise<PulledAlerts & Pick<AlertsReading, 'dropped'>> {
  const complete = answers.complete && lackingZones.length === 0;
  const read = (all: readonly AlertCollection[]) => readAlerts(all, point.zones, point.place);
  const listed = read(collections);
  const reading = isAnyUnexplained(before, listed, nowMs)
    ? read([...collections, ...(await cancelled())])
    : listed;
  return {
    complete,
    fetchedAtMs,
    remembered: rememberAlerts(before, reading, { complete, nowMs }),
    dropped: reading.dropped,
  };
}

export function logLeftOut({ log }: NwsContext, dropped: AlertsReading['dropped']): void {
  for (const { id, event, reason } of dropped) {
    if (reason !== 'elsewhere') log.info({ id, event, reason }, 'alert left out');
  }
}
