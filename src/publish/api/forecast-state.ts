// How old each site's forecast is, for /readyz and the site lists.

import { CLOCK_SKEW_MIN } from '#core/rules/forecast-quality.ts';
import { rfc3339 } from '#core/units/local-time.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { SiteState } from '#memory/site-state.ts';
import type { DeskSite } from '#publish/desk.ts';
import type { ForecastState } from '#publish/wire.ts';

export function forecastStateOf(site: DeskSite, nowMs: number): ForecastState {
  const { held, checkedAtMs, fault } = site.state;
  const zone = site.timeZone ?? 'UTC';
  const at = (ms: number | null | undefined) => (ms === null || ms === undefined ? null : rfc3339(ms, zone));
  const issuedMs = held?.forecast.issuedAtMs ?? null;
  const ageMin = ageMinOf(issuedMs, nowMs);
  return {
    state: freshnessOf(site.state, site, nowMs),
    madeAt: at(issuedMs),
    ageMin,
    checkedAt: at(checkedAtMs),
    nextDueAt: at(site.nextDueMs),
    // Nothing is read at the beginning of time: never read.
    alertsReadAt: at(held?.alerts.fetchedAtMs || null),
    fault: fault && { code: fault.code, message: fault.message, at: rfc3339(fault.atMs, zone) },
  };
}

const ageMinOf = (issuedMs: number | null, nowMs: number): number | null =>
  issuedMs === null ? null : Math.floor((nowMs - issuedMs) / MINUTE_MS);

export function freshnessOf(
  { held }: Pick<SiteState, 'held'>,
  { warnAfterMin, holdAfterMin }: Pick<DeskSite, 'warnAfterMin' | 'holdAfterMin'>,
  nowMs: number,
): ForecastState['state'] {
  if (held === null) return 'none';
  const ageMin = ageMinOf(held.forecast.issuedAtMs, nowMs);
  // A stamp ahead of this clock by more than clocks differ is no fresh forecast either.
  if (ageMin === null || ageMin >= holdAfterMin || ageMin < -CLOCK_SKEW_MIN) return 'stale';
  return ageMin >= warnAfterMin ? 'aging' : 'fresh';
}
