// A site: where the pit is, when people are there, how long a burn takes, what smoke must not reach, and whose limits hold.

import type { ClockTime, DayName, LocalDate } from '#core/units/local-time.ts';

export interface Place {
  /** Degrees north, WGS 84. */
  readonly latDeg: number;
  /** Degrees east, WGS 84. */
  readonly lonDeg: number;
}

export interface Shift {
  readonly days: readonly DayName[];
  readonly from: ClockTime;
  /** Earlier than or equal to `from`: the shift ends on the next day. */
  readonly to: ClockTime;
  readonly holidays: readonly LocalDate[];
}

export interface DaylightMargins {
  /** No light-up earlier than this long after sunrise. */
  readonly lightUpAfterSunriseMin: number;
  /** Fire out this long before sunset. */
  readonly outBeforeSunsetMin: number;
}

export interface BurnTimes {
  /** Engine and curtain running before light-up. */
  readonly warmUpMin: number;
  /** From light-up until the first charge. */
  readonly kindlingMin: number;
  /** From the last charge until burned down. */
  readonly burnDownMin: number;
  /** From burned down until covered with soil. */
  readonly coverMin: number;
  /** A go shorter than this is not worth lighting. */
  readonly shortestRunMin: number;
}

/** What smoke must not reach: bearings clockwise from `fromBearingDeg` to `toBearingDeg`, seen from the pit. */
export interface ProtectedPlace {
  readonly name: string;
  readonly fromBearingDeg: number;
  readonly toBearingDeg: number;
  /** How far away it is, nearest point [m]. */
  readonly distanceM: number;
  /** The sector is widened by this on both sides. */
  readonly marginDeg: number;
  /** What smoke towards it means. */
  readonly verdict: 'hold' | 'stop';
}

export interface SmokeSettings {
  /** Protected places farther away than this are not judged [m]. */
  readonly reachM: number;
  /** Below this wind speed smoke may drift anywhere [m/s]. */
  readonly unsureBelowMps: number;
}

export interface WindShiftSettings {
  readonly atLeastDeg: number;
  readonly atLeastMps: number;
  /** One hour step, or two. */
  readonly withinHours: 1 | 2;
}

export interface QualitySettings {
  readonly warnAfterMin: number;
  readonly holdAfterMin: number;
  readonly alertsHoldAfterMin: number;
}

/** A burn ban or another local order, as the office entered it. */
export interface LocalOrder {
  /** authority-stop: an authority has put the site on stop, until it lifts that; `name` is its reason. */
  readonly kind: 'order' | 'authority-stop';
  readonly name: string;
  readonly issuer: string;
  /** Local date or date and time; null: since ever, or until lifted. */
  readonly fromMs: number | null;
  readonly toMs: number | null;
  readonly verdict: 'hold' | 'stop';
}

export type AlertVerdict = 'go' | 'hold' | 'stop';

export interface Site {
  readonly id: string;
  readonly name: string;
  readonly place: Place;
  readonly timeZone: string;
  readonly shifts: readonly Shift[];
  /** Null: burning by night is allowed here. */
  readonly daylight: DaylightMargins | null;
  readonly burn: BurnTimes;
  readonly protected: readonly ProtectedPlace[];
  readonly smoke: SmokeSettings;
  readonly windShift: WindShiftSettings;
  readonly quality: QualitySettings;
  /** Gust = wind × factor where the forecast has none; null forbids it. */
  readonly gustFactor: number | null;
  readonly orders: readonly LocalOrder[];
  /** Event name → verdict; an event that is not listed is advice. */
  readonly alertVerdicts: Readonly<Record<string, AlertVerdict>>;
}

/** From the last charge until the pit is covered [ms]. */
export const putOutMs = (burn: BurnTimes): number => (burn.burnDownMin + burn.coverMin) * 60_000;
