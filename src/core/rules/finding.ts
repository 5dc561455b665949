// A finding: what a rule says of a span of time. Stable code, verdict, figures; never a sentence.

import type { Element } from '#core/series/elements.ts';
import type { MissingReason } from '#core/series/hourly-series.ts';
import type { Span } from '#core/units/time.ts';

/** go: may light and charge. hold: do not light, add no wood. stop: no fire, put it down and cover. */
export type Verdict = 'go' | 'hold' | 'stop';

export const SEVERITY: Readonly<Record<Verdict, number>> = { go: 0, hold: 1, stop: 2 };

export const worseOf = (a: Verdict, b: Verdict): Verdict => (SEVERITY[a] >= SEVERITY[b] ? a : b);

/** Figures of a limit at the hour of a run that is farthest beyond (or nearest to) its bound; core units. */
export interface LimitFigures {
  readonly limitIndex: number;
  readonly element: Element;
  readonly value: number;
  readonly bound: number;
  /** The unit in which the limit's owner wrote it. */
  readonly boundUnit: string;
  readonly side: 'atLeast' | 'atMost';
  readonly room: number;
  readonly roomFraction: number;
  readonly atMs: number;
  readonly derived: boolean;
  readonly source: string;
  /** Category by the limit's table, where it has one. */
  readonly category: number | null;
}

/** Every code with its figures. Codes are a published contract: never rename one, never change what it means. */
export interface FindingFigures {
  'within-limits': Record<string, never>;
  'over-limit': LimitFigures;
  'under-limit': LimitFigures;
  'not-judged': Record<string, never>;
  /** Something that is judged by is no number at all; `what` names it. */
  'input-unusable': { readonly what: readonly string[] };
  'element-missing': { readonly element: Element; readonly why: MissingReason };
  'before-forecast': { readonly beginsMs: number };
  'beyond-horizon': { readonly endsMs: number };
  'forecast-aging': { readonly ageMin: number; readonly warnAfterMin: number };
  'forecast-stale': { readonly ageMin: number; readonly holdAfterMin: number };
  'forecast-undated': Record<string, never>;
  'forecast-ahead': { readonly aheadMin: number };
  'forecast-future': { readonly aheadMin: number };
  'forecast-faults': { readonly count: number; readonly kinds: readonly string[] };
  'official-alert': {
    readonly event: string;
    readonly sender: string;
    readonly headline: string;
    readonly id: string;
    readonly possible: boolean;
    readonly openEnded: boolean;
  };
  'alerts-unknown': { readonly why: 'never-read' | 'incomplete' | 'old' | 'future'; readonly ageMin: number };
  'grid-hazard': {
    readonly event: string | null;
    readonly phenomenon: string | null;
    readonly significance: string | null;
  };
  'grid-weather': { readonly weather: string; readonly coverage: string | null };
  'local-order': { readonly name: string; readonly issuer: string; readonly openEnded: boolean };
  /** `name`: its reason. It stands until it is lifted. */
  'authority-stop': { readonly name: string; readonly issuer: string };
  'season-ban': { readonly from: string; readonly to: string; readonly source: string };
  dark: Record<string, never>;
  'soon-after-sunrise': { readonly sunriseMs: number; readonly afterMin: number };
  'near-sunset': { readonly sunsetMs: number; readonly beforeMin: number };
  'off-shift': Record<string, never>;
  'warming-up': { readonly warmUpMin: number };
  'clock-before': { readonly clock: string; readonly source: string };
  'clock-charge': { readonly clock: string; readonly source: string };
  'clock-out': { readonly clock: string; readonly source: string };
  'smoke-reaches': {
    readonly place: string;
    readonly windFromDeg: number;
    readonly smokeToDeg: number;
    readonly distanceM: number;
    readonly windSpeedMps: number | null;
  };
  'smoke-unsure': {
    readonly windSpeedMps: number;
    readonly belowMps: number;
    readonly places: readonly string[];
  };
  'wind-shift': {
    readonly fromDeg: number;
    readonly toDeg: number;
    readonly turnDeg: number;
    readonly windSpeedMps: number;
    readonly atMs: number;
    readonly place: string | null;
  };
  'burn-down-ahead': {
    readonly causes: readonly FindingCode[];
    readonly atMs: number;
    readonly neededMin: number;
  };
  'short-run': { readonly lengthMin: number; readonly neededMin: number };
  /** A cause of a last charge only: the go lasts on, and the plan of a day looks no farther. */
  'plan-ends': Record<string, never>;
}

export type FindingCode = keyof FindingFigures;

interface FindingBase extends Span {
  readonly verdict: Verdict;
  /** True where the verdict is hold because nobody can say. */
  readonly unknown: boolean;
}

export type FindingOf<C extends FindingCode> = FindingBase & {
  readonly code: C;
  readonly figures: FindingFigures[C];
};

export type Finding = { [C in FindingCode]: FindingOf<C> }[FindingCode];

/** Makes a finding; `unknown` is for holds because of lacking knowledge. */
export function finding<C extends FindingCode>(
  code: C,
  verdict: Verdict,
  span: Span,
  figures: FindingFigures[C],
  unknown = false,
): Finding {
  return { code, verdict, fromMs: span.fromMs, toMs: span.toMs, figures, unknown } as unknown as Finding;
}

/**
 * True for what a burn must not run into: a stop, a span of which nobody can say what it brings, and smoke on a
 * protected place, since a burning pit smokes until it is covered.
 */
export const forcesOut = (f: Finding): boolean =>
  f.verdict === 'stop' || f.unknown || f.code === 'smoke-reaches';
