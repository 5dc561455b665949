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

const SHORTEST_ABSENCE_MS = 3 * MINUTE_MS;

/**
 * Joins what is listed now with what was listed before. An alert that is gone from the list stays until a message ends
 * or replaces it, its own end has passed, or two complete answers at least 3 min apart were without it. An incomplete
 * answer counts as no miss.
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
    if (seen.nowMs - sinceMs < SHORTEST_ABSENCE_MS) kept.push({ alert, missedSinceMs: sinceMs });
  }
  return kept;
}

/**
 * An alert that is listed as active past its own end goes on: recorded lists hold many whose event outlasts the message.
 * It stands for an hour from the next full hour on, and every pull looks again.
 */
function stillStanding(alert: OfficialAlert, nowMs: number): OfficialAlert {
  if (alert.toMs === null || alert.toMs > nowMs) return alert;
  return { ...alert, toMs: ceilToHour(nowMs) + HOUR_MS };
}
