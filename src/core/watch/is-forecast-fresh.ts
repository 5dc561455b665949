// Whether the forecast of the plan can still be gone by.

import { CLOCK_SKEW_MIN } from '#core/rules/forecast-quality.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { WatchInput } from './watch-context.ts';

/** None, undated, older than the site allows, or dated ahead: each is as good as none. */
export function isForecastFresh({ nowMs, plan, site }: Pick<WatchInput, 'nowMs' | 'plan' | 'site'>): boolean {
  const issuedMs = plan?.forecast.issuedAtMs ?? Number.NaN;
  const ageMin = Math.floor((nowMs - issuedMs) / MINUTE_MS);
  return ageMin < site.quality.holdAfterMin && ageMin >= -CLOCK_SKEW_MIN;
}
