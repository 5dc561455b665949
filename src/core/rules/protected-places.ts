// Where the smoke goes: protected places downwind, and winds too light to say where it goes.

import { valueAt } from '#core/series/hourly-series.ts';
import type { ProtectedPlace, Site } from '#core/site/site.ts';
import { downwindDeg, inSector } from '#core/units/direction.ts';
import { type Finding, finding } from './finding.ts';
import { hoursSpan, judgedHours, type RuleContext } from './rule.ts';

/** Unit conversion leaves so much: a wind of exactly the bound is not below it. */
export const DUST_MPS = 1e-6;

/** Protected places near enough to judge. */
export const placesWithinReach = (site: Site): ProtectedPlace[] =>
  site.protected.filter((place) => !(place.distanceM > site.smoke.reachM));

/** True where smoke of a wind from `windFromDeg` goes into the place's widened sector. */
export const smokeReaches = (place: ProtectedPlace, windFromDeg: number): boolean =>
  inSector(downwindDeg(windFromDeg), place.fromBearingDeg, place.toBearingDeg, place.marginDeg);

/**
 * `smoke-reaches` by runs of hours per place, whatever the wind speed; `smoke-unsure` (hold) where the wind is too
 * light for its direction to be trusted. A missing direction is the quality rule's finding.
 */
export function protectedPlaces(context: RuleContext): readonly Finding[] {
  const { series, site } = context;
  const places = placesWithinReach(site);
  if (places.length === 0) return [];
  const { first, beyond } = judgedHours(context);
  const directions = series.columns.windDirection.values;
  const speeds = series.columns.windSpeed.values;
  const findings: Finding[] = [];
  for (const place of places) {
    const reached = runs(first, beyond, (h) => {
      const windFromDeg = directions[h] as number;
      return !Number.isNaN(windFromDeg) && smokeReaches(place, windFromDeg);
    });
    for (const { from, to } of reached) {
      const windFromDeg = valueAt(series, 'windDirection', from) ?? 0;
      const figures = {
        place: place.name,
        windFromDeg,
        smokeToDeg: downwindDeg(windFromDeg),
        distanceM: place.distanceM,
        windSpeedMps: valueAt(series, 'windSpeed', from),
      };
      findings.push(finding('smoke-reaches', place.verdict, hoursSpan(series, from, to), figures));
    }
  }
  const belowMps = site.smoke.unsureBelowMps;
  const names = places.map((p) => p.name);
  // A missing speed compares as not light; its hour is the quality rule's finding.
  const light = runs(first, beyond, (h) => (speeds[h] as number) < belowMps - DUST_MPS);
  for (const { from, to } of light) {
    const windSpeedMps = valueAt(series, 'windSpeed', from) ?? 0;
    findings.push(
      finding('smoke-unsure', 'hold', hoursSpan(series, from, to), { windSpeedMps, belowMps, places: names }),
    );
  }
  return findings;
}

function runs(
  first: number,
  beyond: number,
  test: (hour: number) => boolean,
): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  let from = -1;
  for (let h = first; h <= beyond; h += 1) {
    const inside = h < beyond && test(h);
    if (inside && from < 0) from = h;
    if (!inside && from >= 0) {
      found.push({ from, to: h });
      from = -1;
    }
  }
  return found;
}
