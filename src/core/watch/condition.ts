// What the watch says of a site at one moment: each thing that could matter is true, false or unknown. Unknown never
// counts as over.

import type { Verdict } from '#core/rules/finding.ts';
import type { Element } from '#core/series/elements.ts';
import type { PitLit } from './pit-lit.ts';

export type Truth = 'true' | 'false' | 'unknown';

/** observed: measured. forecast: expected. record: what the crew tapped, or did not. order: an office said so. */
export type ConditionBasis = 'observed' | 'forecast' | 'record' | 'order';

/** A published contract like the codes of findings: never rename one, never change what it means. */
export type ConditionCode =
  | 'wind-shifted'
  | 'wind-drifted'
  | 'smoke-turned-to-place'
  | 'wind-unsteady'
  | 'observed-beyond-limit'
  | 'thunder-near'
  | 'official-alert'
  | 'local-order'
  | 'authority-stop'
  | 'plan-worse'
  | 'plan-moved'
  | 'plan-verdict'
  | 'wind-shift-ahead'
  | 'forecast-stale'
  | 'station-silent'
  | 'station-doubted'
  | 'reading-missing'
  | 'wind-unmeasured'
  | 'lit-against-plan'
  | 'lit-without-go'
  | 'last-charge-soon'
  | 'last-charge-due'
  | 'cover-due'
  | 'not-covered-by-dusk'
  | 'look-again';

/** Figures for the texts, all in core units; what does not apply is null. */
export interface ConditionFigures {
  readonly element: Element | null;
  readonly value: number | null;
  readonly bound: number | null;
  /** The unit in which the bound's owner wrote it. */
  readonly boundUnit: string | null;
  readonly side: 'atLeast' | 'atMost' | null;
  /** Whose figure the bound is. */
  readonly source: string | null;
  readonly windFromDeg: number | null;
  readonly windSpeedMps: number | null;
  readonly gustMps: number | null;
  /** Direction before it turned, or that the crew was briefed on. */
  readonly wasFromDeg: number | null;
  readonly place: string | null;
  /** Name of an official event, an order, a time of the plan. */
  readonly what: string | null;
  /** A moment that it is about: when a time is due, when it was, or is, foreseen [epoch ms]. */
  readonly atMs: number | null;
  readonly wasMs: number | null;
  readonly station: string | null;
  /** Where a source cannot see moments, between which two it happened [epoch ms]. */
  readonly betweenMs: readonly [number, number] | null;
  /** Of several pits at the site the one that it is about; null: the site as a whole, or its only pit. */
  readonly pit: PitLit | null;
}

export interface Condition {
  readonly code: ConditionCode;
  /** What tells two of the same code apart: an element, a place, a station, an event's id. Empty where there is one only. */
  readonly subject: string;
  readonly truth: Truth;
  /**
   * What it means while true: `go` is advice. While unknown, what counts until somebody can say: at least hold, or what it
   * was raised with; `go` where nobody at the site tells it, so that it is left to the forecast.
   */
  readonly verdict: Verdict;
  readonly basis: ConditionBasis;
  /** When what it rests on was measured, or issued [epoch ms]. */
  readonly asOfMs: number | null;
  /** It must have been true for this long before it is told [ms]. */
  readonly holdsForMs: number;
  /** It must have been false for this long before it counts as over [ms]. */
  readonly clearsForMs: number;
  /** No longer of use to anybody after this [epoch ms]. */
  readonly validUntilMs: number;
  readonly figures: ConditionFigures;
}

export const NO_FIGURES: ConditionFigures = {
  element: null,
  value: null,
  bound: null,
  boundUnit: null,
  side: null,
  source: null,
  windFromDeg: null,
  windSpeedMps: null,
  gustMps: null,
  wasFromDeg: null,
  place: null,
  what: null,
  atMs: null,
  wasMs: null,
  station: null,
  betweenMs: null,
  pit: null,
};
