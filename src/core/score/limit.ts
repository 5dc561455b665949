// A limit: bounds on one forecast element and whose figure it is; and the limits that are no figures (clock, season).

import type { Element } from '#core/series/elements.ts';
import type { ClockTime } from '#core/units/local-time.ts';
import type { CategoryTable } from './ventilation-category.ts';

/** A bound in the element's core unit, with the unit in which its owner wrote it. */
export interface Bound {
  readonly value: number;
  readonly unit: string;
}

export interface SideBounds {
  readonly hold: Bound | null;
  readonly stop: Bound | null;
}

export interface ElementLimit {
  readonly element: Element;
  /** By day (sun above the horizon), by night, or always. */
  readonly when: 'always' | 'day' | 'night';
  /** Below these it is too low. */
  readonly atLeast: SideBounds | null;
  /** Above these it is too high. */
  readonly atMost: SideBounds | null;
  /** True: a value exactly on a bound is still within it. Otherwise it belongs to the worse class. */
  readonly inclusive: boolean;
  /** Whose figure it is: permit, county, our rule. */
  readonly source: string;
  /** Where the bounds were given as categories of a table. */
  readonly categories: CategoryTable | null;
  /** Of a limit on wind that says of which; absent: of what the forecast is of. */
  readonly measured?: WindMeasure;
}

/** How high above ground, and over how long a wind is a mean. */
export interface WindMeasure {
  readonly heightM: number;
  readonly averagingS: number;
}

/** What the wind of a forecast is, and of a limit that says nothing (NWS Technical Implementation Notice 13-42). */
export const FORECAST_WIND: WindMeasure = { heightM: 10, averagingS: 120 };

/** Hours on the clock, every day: `lightFrom` and `lastChargeBy` hold outside, `outBy` stops. */
export interface ClockLimit {
  readonly lightFrom: ClockTime | null;
  readonly lastChargeBy: ClockTime | null;
  readonly outBy: ClockTime | null;
  readonly source: string;
}

/** A ban by calendar dates, both days included, `MM-DD`; may run over the turn of the year. */
export interface SeasonLimit {
  readonly from: string;
  readonly to: string;
  readonly verdict: 'hold' | 'stop';
  readonly source: string;
}

export interface LimitSet {
  readonly name: string;
  readonly elements: readonly ElementLimit[];
  readonly clock: readonly ClockLimit[];
  readonly seasons: readonly SeasonLimit[];
}

/** The four bounds of a limit in the order in which a bound index counts: low stop, low hold, high hold, high stop. */
export const boundsOf = (limit: ElementLimit): readonly (Bound | null)[] => [
  limit.atLeast?.stop ?? null,
  limit.atLeast?.hold ?? null,
  limit.atMost?.hold ?? null,
  limit.atMost?.stop ?? null,
];
