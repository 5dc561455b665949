// A forecast turn of the wind: advice, or hold where the smoke then reaches a protected place.

import { valueAt } from '#core/series/hourly-series.ts';
import { putOutMs } from '#core/site/site.ts';
import { angleBetweenDeg } from '#core/units/direction.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { type Finding, finding } from './finding.ts';
import { DUST_MPS, placesWithinReach, smokeReaches } from './protected-places.ts';
import { hoursSpan, judgedHours, type RuleContext } from './rule.ts';

/**
 * A turn of at least `atLeastDeg` from one hour to the next (or the one after), with at least `atLeastMps` at both ends.
 * Hourly grids cannot see the 15 minutes of the observers' definition (AFMAN 15-111, 7.4.5: 45° in under 15 minutes
 * with 10 kt throughout), hence the hour step and the lower speed. Turns that follow on each other are one.
 */
export function windShift(context: RuleContext): readonly Finding[] {
  const { series, site } = context;
  const { first, beyond } = judgedHours(context);
  const findings: Finding[] = [];
  let h = first;
  while (h < beyond) {
    const step = turnAt(context, h);
    // A turn that the second of two hours makes alone begins with that hour.
    if (step === 0 || (step === 2 && turnAt(context, h + 1) === 1)) {
      h += 1;
      continue;
    }
    const from = h;
    let to = h + step;
    while (to < beyond) {
      const more = turnAt(context, to);
      if (more === 0) break;
      to += more;
    }
    findings.push(...findingsOf(context, from, Math.min(to, series.hours - 1)));
    h = to;
  }
  return site.windShift.atLeastDeg > 0 ? findings : [];
}

/** 0 for no turn after hour `h`, else the steps that it takes. A missing value compares as no turn. */
function turnAt({ series, site }: RuleContext, h: number): 0 | 1 | 2 {
  const { atLeastDeg, atLeastMps, withinHours } = site.windShift;
  const directions = series.columns.windDirection.values;
  const speeds = series.columns.windSpeed.values;
  const blows = (hour: number): boolean => (speeds[hour] ?? Number.NaN) >= atLeastMps - DUST_MPS;
  if (!blows(h)) return 0;
  const turns = (step: 1 | 2): boolean =>
    step <= withinHours &&
    blows(h + step) &&
    angleBetweenDeg(directions[h] as number, directions[h + step] as number) >= atLeastDeg - 1e-6;
  if (turns(1)) return 1;
  return turns(2) ? 2 : 0;
}

function findingsOf(context: RuleContext, from: number, to: number): Finding[] {
  const { series, site } = context;
  const fromDeg = valueAt(series, 'windDirection', from) ?? 0;
  const toDeg = valueAt(series, 'windDirection', to) ?? 0;
  const atMs = hoursSpan(series, from + 1, to + 1).fromMs;
  const figures = {
    fromDeg,
    toDeg,
    turnDeg: angleBetweenDeg(fromDeg, toDeg),
    windSpeedMps: valueAt(series, 'windSpeed', to) ?? 0,
    atMs,
  };
  const findings = [
    finding('wind-shift', 'go', hoursSpan(series, from, to + 1), { ...figures, place: null }),
  ];
  for (const place of placesWithinReach(site)) {
    const reached = hoursBetween(from + 1, to).find((h) => {
      const windFromDeg = valueAt(series, 'windDirection', h);
      return windFromDeg !== null && smokeReaches(place, windFromDeg);
    });
    if (reached === undefined) continue;
    const reachedMs = hoursSpan(series, reached, reached + 1).fromMs;
    const span = {
      fromMs: Math.max(context.calendar.span.fromMs, reachedMs - putOutMs(site.burn)),
      toMs: reachedMs + HOUR_MS,
    };
    if (span.toMs - span.fromMs >= MINUTE_MS) {
      findings.push(finding('wind-shift', 'hold', span, { ...figures, place: place.name }));
    }
  }
  return findings;
}

const hoursBetween = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);
