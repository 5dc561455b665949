// What a language must be able to say in texts. A new code of the watch does not compile until every language has its words.

import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { FindingCode, FindingFigures, Verdict } from '#core/rules/finding.ts';
import type { Element } from '#core/series/elements.ts';
import type { DayName } from '#core/units/local-time.ts';
import type { Tap } from '#core/watch/burn.ts';
import type { ConditionCode } from '#core/watch/condition.ts';

/** Figures of a condition, already as text in the reader's units; null where there is none. */
export interface FigureTexts {
  /** The word for what it rests on: observed, forecast, recorded, ordered. */
  readonly basis: string;
  readonly element: string | null;
  readonly elementCode: Element | null;
  /** With its unit. */
  readonly value: string | null;
  readonly bound: string | null;
  readonly side: 'atLeast' | 'atMost' | null;
  readonly source: string | null;
  /** Compass words. */
  readonly from: string | null;
  readonly was: string | null;
  readonly to: string | null;
  readonly speed: string | null;
  readonly gust: string | null;
  readonly place: string | null;
  /** A name that somebody gave: of an event, an order. */
  readonly what: string | null;
  /** The same as a code of ours, where it is one: a time of the plan, a verdict, a state. */
  readonly code: string | null;
  /** Clock times. */
  readonly at: string | null;
  readonly wasAt: string | null;
  readonly asOf: string | null;
  readonly between: readonly [string, string] | null;
  readonly station: string | null;
  /** How often the station is to be read, where that is done by hand [min]; else null. */
  readonly readEveryMin: number | null;
  /** Who measured it; null where nobody did, or where there is no room to say so. */
  readonly by: MeasuredBy | null;
  readonly subject: string;
  /** Which of several pits: long and short; null where that is no question. */
  readonly pit: readonly [whole: string, brief: string] | null;
  /** What the condition means now. */
  readonly verdict: Verdict;
}

export interface MeasuredBy {
  /** Empty where there is no room for it. */
  readonly name: string;
  /** How far from the pit, with its unit; null on site. */
  readonly away: string | null;
  /** How often it tells [min], where that is too seldom to see a turn of the wind within a quarter of an hour; else null. */
  readonly everyMin: number | null;
}

/** `brief`: without what can be spared. `bare`: what it is, and when, no more. */
export type Size = 'whole' | 'brief' | 'bare';
export type ConditionSentence = (f: FigureTexts, size: Size) => string;

export type ShortFindings = {
  readonly [C in FindingCode]: (
    figures: FindingFigures[C],
    name: (text: string) => string,
    element: (e: Element) => string,
  ) => string;
};

export type DayTimeWord = keyof NonNullable<DaySummary['times']>;

/** A clock time of a day's plan and what it was before, where it differs. */
export interface MovedTime {
  readonly at: string;
  readonly was: string | null;
}

export interface TextWords {
  /** What to do: while a fire burns, and while none does. `go` is news, never leave to light. */
  readonly lit: Readonly<Record<Verdict, string>>;
  readonly unlit: Readonly<Record<Verdict, string>>;
  /** What to do where the code says it better than its verdict. */
  readonly duties: Readonly<Partial<Record<ConditionCode, string>>>;
  /** To those who are not at the pit. */
  forCrew(order: string, brief: boolean): string;
  readonly notAnswered: readonly [long: string, short: string];
  readonly again: string;
  /** Before the sentence. */
  readonly worse: string;
  readonly eased: string;
  readonly unsteady: string;
  readonly still: string;
  /** Before the sentence, of what nobody can say now; or instead of it. */
  readonly lastKnown: string;
  unsure(topic: string): string;
  /** Instead of the sentence. */
  over(topic: string, at: string, brief: boolean): string;
  corrected(topic: string, at: string, brief: boolean): string;
  readonly onlyByPlan: readonly [long: string, short: string];
  readonly sentences: Readonly<Record<ConditionCode, ConditionSentence>>;
  readonly topics: Readonly<Record<ConditionCode, (f: FigureTexts) => string>>;
  /** By when it was lit; `nth`: of those lit in the same minute. */
  pit(lit: string, nth: number | null): readonly [whole: string, brief: string];
  readonly bases: Readonly<Record<'observed' | 'forecast' | 'record' | 'order', string>>;
  smoke(to: string, brief: boolean): string;
  readonly smokeAnywhere: string;
  more(count: number): string;
  readonly reply: readonly [long: string, short: string, shortest: string];
  readonly replyMail: (url: string) => string;
  /** To those who are not at the pit, after the crew has been named. */
  readonly cautionShort: string;
  readonly caution: readonly [long: string, short: string, shortest: string];
  until(clock: string, brief: boolean): string;
  /** `all`: of the site, whatever it is; else of some things only. */
  silenced(until: string, by: string, all: boolean): readonly [whole: string, bare: string, brief: string];
  /** North first, clockwise by 45 degrees. */
  readonly compass: readonly string[];
  readonly weekdays: Readonly<Record<DayName, string>>;
  readonly elements: Readonly<Record<Element, string>>;
  limit(element: string, value: string, at: string | null, bound: string, side: 'atLeast' | 'atMost'): string;
  readonly findings: ShortFindings;
  readonly day: DayWords;
  readonly drill: readonly [long: string, short: string];
  readonly taps: Readonly<Record<Tap, (at: string, by: string | null) => string>>;
  readonly office: OfficeWords;
  /** Where words fail: an order and nothing that could fail again. */
  fallback(order: string): string;
  readonly site: string;
}

export interface DayWords {
  readonly today: string;
  readonly go: string;
  readonly cannotSay: string;
  readonly same: readonly [long: string, short: string];
  readonly changed: string;
  was(word: string): string;
  lightUp(time: MovedTime, by: MovedTime | null): string;
  lastCharge(time: MovedTime): string;
  coveredBy(time: MovedTime): string;
  /** All three in the fewest words. */
  times(lightUp: string, lastCharge: string, coveredBy: string): string;
  pause(from: string, to: string): string;
  pauses(count: number): string;
  tightest(limit: string): string;
}

export interface OfficeWords {
  readonly order: string;
  readonly 'opted-out': (name: string) => string;
  readonly 'opted-in': (name: string) => string;
  readonly 'not-delivered': (name: string) => string;
  readonly 'not-answered': (name: string | null) => string;
  /** To a message that had ended already. */
  readonly cannot: (name: string) => string;
  readonly wrote: (name: string, text: string) => string;
}
