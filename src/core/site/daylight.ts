// Daylight as spans of time between sunrise and sunset, right where a date has no sunrise, no sunset, or both in odd order.

import { getTimes } from 'suncalc';
import { DAY_MS, type Span, unite } from '#core/units/time.ts';
import type { Place } from './site.ts';

/** One stretch of sun above the horizon. An edge that is no sunrise or sunset (polar day) is not marked. */
export interface Daylight extends Span {
  readonly beginsAtSunrise: boolean;
  readonly endsAtSunset: boolean;
}

/**
 * Daylight that touches a span of time, in order. Sunrise and sunset: upper limb on a sea-level horizon with mean
 * refraction (centre at -50′; US Naval Observatory definition). Polar night gives nothing, polar day one long stretch.
 */
export function daylightOver(place: Place, span: Span): Daylight[] {
  const stretches: Daylight[] = [];
  // Half a day more on both sides: a solar day runs from midnight to midnight of the sun, not of the clock.
  for (let ms = span.fromMs - DAY_MS / 2; ms < span.toMs + DAY_MS; ms += DAY_MS) {
    const sun = getTimes(dateOf(ms), place.latDeg, place.lonDeg);
    const noonMs = sun.solarNoon.getTime();
    if (!sun.alwaysUp && sun.sunrise === null) continue;
    stretches.push({
      fromMs: sun.sunrise?.getTime() ?? noonMs - DAY_MS / 2,
      toMs: sun.sunset?.getTime() ?? noonMs + DAY_MS / 2,
      beginsAtSunrise: sun.sunrise !== null,
      endsAtSunset: sun.sunset !== null,
    });
  }
  return join(stretches).filter((s) => s.fromMs < span.toMs && s.toMs > span.fromMs);
}

/** Stretches of polar day meet within seconds of each other at solar midnight; they are one. */
const MEET_MS = 120_000;

function join(stretches: readonly Daylight[]): Daylight[] {
  const joined: Daylight[] = [];
  for (const next of stretches) {
    const last = joined.at(-1);
    if (last && next.fromMs <= last.toMs + MEET_MS && !(last.endsAtSunset && next.beginsAtSunrise)) {
      joined[joined.length - 1] = { ...last, toMs: next.toMs, endsAtSunset: next.endsAtSunset };
    } else if (last && next.fromMs < last.toMs) {
      joined.push({ ...next, fromMs: last.toMs });
    } else {
      joined.push(next);
    }
  }
  return joined;
}

// suncalc takes a Date; it is made here from the instant given, never from the clock.
// biome-ignore lint/style/noRestrictedGlobals: the library's interface
const dateOf = (ms: number): Date => new Date(ms);

export const daySpans = (daylight: readonly Daylight[]): Span[] => unite(daylight);
