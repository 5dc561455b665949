// What a language must be able to say. A new finding code does not compile until every language has its sentence.

import type { FindingCode, FindingFigures, LimitFigures, Verdict } from '#core/rules/finding.ts';
import type { Element } from '#core/series/elements.ts';
import type { MissingReason } from '#core/series/hourly-series.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { Language, UnitSystem } from './show.ts';

/** How the reader wants to be spoken to. */
export interface Reader {
  readonly language: Language;
  readonly units: UnitSystem;
  readonly timeZone: string;
  /** The day spoken of: times on it go without a date. */
  readonly day: LocalDate | null;
}

export type Sentences = {
  readonly [C in FindingCode]: (figures: FindingFigures[C], reader: Reader, verdict: Verdict) => string;
};

export interface Words {
  readonly sentences: Sentences;
  readonly elements: Readonly<Record<Element, string>>;
  readonly verdicts: Readonly<Record<Verdict, string>>;
  /** What to do under a verdict. */
  readonly orders: Readonly<Record<Verdict, string>>;
  readonly whyMissing: Readonly<Record<MissingReason, string>>;
  readonly cannotSay: string;
  readonly caution: string;
  readonly demo: string;
  readonly labels: Readonly<Record<Label, string>>;
  tightest(figures: LimitFigures, reader: Reader): string;
  /** A move that would end a go, or that a barred hour would need. */
  move(figures: LimitFigures, moveBy: number, towards: Verdict, reader: Reader): string;
  nextChange(atMs: number, to: Verdict, reader: Reader): string;
  burnDown(min: number): string;
  cover(min: number): string;
  warmUp(min: number): string;
  /** Charging goes on until `untilMs`, but a fire lit now would come too late. */
  tooLateToLight(untilMs: number, reader: Reader): string;
  /** How old, or how far ahead of this clock where `min` is negative. */
  age(min: number): string;
  /** A pause of a burn, between two clock times. */
  noWood(from: string, to: string): string;
}

export const LABELS = [
  'allSites',
  'lightUp',
  'lightUpBy',
  'mayLightUntil',
  'lastCharge',
  'coveredBy',
  'burnedDown',
  'warmUp',
  'today',
  'tomorrow',
  'theDay',
  'whyTheseTimes',
  'whyNotBefore',
  'whyStopCharging',
  'whyNone',
  'wouldChange',
  'everyHour',
  'windows',
  'hour',
  'smokeGoesToward',
  'forecastMade',
  'fetched',
  'workedOut',
  'nextDue',
  'nextDays',
  'noWindow',
  'missing',
  'derived',
  'siteTime',
  'noForecast',
  'from',
  'until',
  'otherLanguage',
  'otherUnits',
  'voidAfter',
  'now',
  'advice',
  'nightLook',
  'dayLook',
  'usUnits',
  'answer',
  'notFresh',
  'lastFault',
  'noMoreWoodSince',
  'nextWindow',
  'pause',
  'whateverTheValues',
  'allOfThese',
  'dotsAre',
  'outOfLimit',
  'noSites',
  'choices',
  'alertsRead',
  'besides',
  'eachOwnTime',
] as const;
export type Label = (typeof LABELS)[number];
