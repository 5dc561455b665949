// Where the smoke of a pit goes at a moment: a sector downwind of what was observed, else of the forecast hour. What has no
// direction has no sector, and says so: no sector covers everything or nothing, as the asker must decide.

import { CLOCK_SKEW_MIN } from '#core/rules/forecast-quality.ts';
import { DUST_MPS } from '#core/rules/protected-places.ts';
import type { Forecast } from '#core/series/forecast.ts';
import { hourAt, valueAt } from '#core/series/hourly-series.ts';
import type { Site } from '#core/site/site.ts';
import { downwindDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import type { Station } from './station.ts';
import type { WindNow } from './wind-now.ts';

/** Whose word it is: a station's, with the moment of its newest reading, or the forecast's for an hour, with its making. */
export type SmokeSource =
  | { readonly kind: 'observed'; readonly station: string; readonly atMs: number }
  | { readonly kind: 'forecast'; readonly atMs: number; readonly issuedAtMs: number };

/** light: too little wind to say where smoke goes. stale: the forecast is too old to go by. missing: nobody says. */
export type NoSector = 'calm' | 'variable' | 'light' | 'stale' | 'missing';

export type Smoke =
  | {
      readonly kind: 'toward';
      readonly towardDeg: number;
      /** On either side [deg], below 90. */
      readonly halfWidthDeg: number;
      readonly speedMps: number;
      readonly source: SmokeSource;
    }
  | {
      readonly kind: NoSector;
      readonly speedMps: number | null;
      /** Null where nobody says. */
      readonly source: SmokeSource | null;
    };

/** A reported direction comes in steps of 10° and stands for some minutes; elsewhere, and in a forecast, it errs by more (ours). */
const AT_THE_PIT_DEG = 20;
const ELSEWHERE_DEG = 30;
/** So wide a sector says no direction any more. */
const WIDEST_DEG = 90;
/** Of the spread of directions, on either side: 19 of 20 where they are spread as a bell. */
const SIGMAS = 2;

/** Nobody tells the wind. */
export const NO_SMOKE: Smoke = { kind: 'missing', speedMps: null, source: null };

/** Null where no station tells a wind that can be gone by: the forecast is asked then. */
export function observedSmoke(wind: WindNow, stations: readonly Station[], site: Site): Smoke | null {
  const { station, observedAtMs, speedMps, kind } = wind;
  if (station === null || observedAtMs === null || kind === 'missing') return null;
  const source: SmokeSource = { kind: 'observed', station, atMs: observedAtMs };
  if (kind === 'calm') return { kind, speedMps: speedMps ?? 0, source };
  if (wind.fromDeg === null || speedMps === null) return { kind: 'variable', speedMps, source };
  const isAtPit = stations.find(({ id }) => id === station)?.kind !== 'near';
  const leastDeg = isAtPit ? AT_THE_PIT_DEG : ELSEWHERE_DEG;
  const halfWidthDeg = Math.max(leastDeg, SIGMAS * (wind.sigmaDeg ?? 0));
  return sector(wind.fromDeg, halfWidthDeg, speedMps, source, site);
}

/** Of the hour that holds the moment. An old, undated or future-dated forecast has no sector. */
export function forecastSmoke(forecast: Forecast | null, site: Site, atMs: number): Smoke {
  if (forecast === null) return NO_SMOKE;
  const { series, issuedAtMs } = forecast;
  if (issuedAtMs === null) return { ...NO_SMOKE, kind: 'stale' };
  const hour = hourAt(series, atMs);
  const source: SmokeSource = { kind: 'forecast', atMs: series.startMs + hour * HOUR_MS, issuedAtMs };
  const speedMps = valueAt(series, 'windSpeed', hour);
  const ageMin = (atMs - issuedAtMs) / MINUTE_MS;
  if (!(ageMin < site.quality.holdAfterMin && ageMin >= -CLOCK_SKEW_MIN))
    return { kind: 'stale', speedMps, source };
  const fromDeg = valueAt(series, 'windDirection', hour);
  if (speedMps === null || (fromDeg === null && speedMps > DUST_MPS))
    return { kind: 'missing', speedMps, source };
  if (fromDeg === null || speedMps <= DUST_MPS) return { kind: 'calm', speedMps, source };
  return sector(fromDeg, ELSEWHERE_DEG, speedMps, source, site);
}

function sector(
  fromDeg: number,
  halfWidthDeg: number,
  speedMps: number,
  source: SmokeSource,
  { smoke }: Site,
): Smoke {
  if (speedMps < smoke.unsureBelowMps - DUST_MPS) return { kind: 'light', speedMps, source };
  if (halfWidthDeg >= WIDEST_DEG) return { kind: 'variable', speedMps, source };
  return { kind: 'toward', towardDeg: downwindDeg(fromDeg), halfWidthDeg, speedMps, source };
}
