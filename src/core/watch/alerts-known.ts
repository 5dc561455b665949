// Whether anybody can say which official alerts are in force.

import { CLOCK_SKEW_MIN } from '#core/rules/forecast-quality.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { WatchInput } from './watch-context.ts';

/** False where the list was never read, not as a whole, too long ago, or in the future. */
export function alertsKnown({ alerts, nowMs, site }: Pick<WatchInput, 'alerts' | 'nowMs' | 'site'>): boolean {
  if (alerts === null || !alerts.complete) return false;
  const ageMin = (nowMs - alerts.fetchedAtMs) / MINUTE_MS;
  return ageMin >= -CLOCK_SKEW_MIN && ageMin < site.quality.alertsHoldAfterMin;
}
