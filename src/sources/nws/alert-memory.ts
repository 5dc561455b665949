// What became of alerts from one pull to the next. A stale answer once left out an alert that still stood, so being
// absent once ends nothing.

import type { OfficialAlert } from '#core/series/official-alert.ts';
import { ceilToHour, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { AlertsReading } from './alerts.ts';

export interface RememberedAlert {
  readonly alert: OfficialAlert;
  /** When the first of the complete answers in a row came that were without it; null where the last one had it. */
  readonly missedSinceMs: number | null;
}

/** An alert without an end of its own that is gone from the list, by complete answers so far apart. */
const SHORTEST_ABSENCE_MS = 3 * MINUTE_MS;
/** One that is to last longer by its own word, and that no message was found to end. */
const UNEXPLAINED_ABSENCE_MS = HOUR_MS;

/**
 * Joins what is listed now with what was listed before. An alert that is gone from the list stays until a message ends
 * or replaces it, its own end has passed, or complete answers were without it for long enough. An incomplete answer counts
 * as no miss.
 */
export function rememberAlerts(
  before: readonly RememberedAlert[],
  reading: AlertsReading,
  seen: { readonly complete: boolean; readonly nowMs: number },
): RememberedAlert[] {
  const listed = new Set(reading.alerts.map((alert) => alert.id));
  const kept: RememberedAlert[] = reading.alerts.map((alert) => ({
    alert: stillStanding(alert, seen.nowMs),
    missedSinceMs: null,
  }));
  for (const { alert, missedSinceMs } of before) {
    if (listed.has(alert.id) || reading.endedIds.has(alert.id)) continue;
    if (alert.toMs !== null && alert.toMs <= seen.nowMs) continue;
    if (!seen.complete) {
      kept.push({ alert, missedSinceMs });
      continue;
    }
    const sinceMs = missedSinceMs ?? seen.nowMs;
    const longMs = alert.toMs === null ? SHORTEST_ABSENCE_MS : UNEXPLAINED_ABSENCE_MS;
    if (seen.nowMs - sinceMs < longMs) kept.push({ alert, missedSinceMs: sinceMs });
  }
  return kept.sort(byId);
}

/** The same alerts are the same list, in whatever order and by whatever query they came. */
const byId = (a: RememberedAlert, b: RememberedAlert): number => (a.alert.id < b.alert.id ? -1 : 1);

/** True where an alert of before is not listed and nothing says why: some message may have cancelled it. */
export function isAnyUnexplained(
  before: readonly RememberedAlert[],
  reading: AlertsReading,
  nowMs: number,
): boolean {
  const told = new Set([...reading.alerts.map(({ id }) => id), ...reading.endedIds]);
  return before.some(({ alert }) => !told.has(alert.id) && (alert.toMs === null || alert.toMs > nowMs));
}

/**
 * An alert that is listed as active past its own end goes on: recorded lists hold many whose event outlasts the message.
 * It stands for an hour from the next full hour on, and every pull looks again.
 */
function stillStanding(alert: OfficialAlert, nowMs: number): OfficialAlert {
  if (alert.toMs === null || alert.toMs > nowMs) return alert;
  return { ...alert, toMs: ceilToHour(nowMs) + HOUR_MS };
}
