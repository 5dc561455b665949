// What the page of a past day is made from. Instants are RFC 3339 on the clock of the site.

import type { Verdict } from '#core/rules/finding.ts';
import type { PlanAnswer } from '#publish/wire.ts';
import type { BurnAnswer, MessageAnswer, ObservationAnswer } from '#publish/wire-watch.ts';
import type { Language, UnitSystem } from '#publish/wording/show.ts';
import type { Query } from './links.ts';

export type TimeName = 'lightUp' | 'lightUpBy' | 'lastCharge' | 'burnedDown' | 'coveredBy';

/** What of a plan is another than in the one before it. */
export type Moved =
  | { readonly kind: 'verdict'; readonly from: Verdict; readonly to: Verdict }
  | {
      readonly kind: 'time';
      readonly time: TimeName;
      readonly from: string | null;
      readonly to: string | null;
      readonly movedMin: number | null;
    }
  | { readonly kind: 'windows' }
  | { readonly kind: 'reason' };

export interface PlanLine {
  readonly id: string;
  readonly madeAt: string;
  readonly cause: 'forecast' | 'alerts' | 'definition' | 'time';
  /** First digits of the hash of the forecast document. */
  readonly document: string;
  readonly receivedAt: string;
  readonly verdict: Verdict;
  readonly cannotSay: boolean;
  readonly lightUp: string | null;
  readonly lastCharge: string | null;
  readonly coveredBy: string | null;
  /** Null: it is the first. */
  readonly moved: readonly Moved[] | null;
  readonly program: string;
}

export interface KnownLine {
  /** The moment asked for, and as it was asked: HH:MM. */
  readonly at: string;
  readonly clock: string;
  /** Null where no plan of the day stood then. */
  readonly plan: PlanLine | null;
  readonly rebuilt: 'same-bytes' | 'other-bytes' | 'not-kept' | null;
  /** As it was answered then; null where it cannot be made again. */
  readonly answer: PlanAnswer | null;
}

export interface ToldLine extends MessageAnswer {
  /** The words that each was sent, in the order of the deliveries. */
  readonly said: readonly (string | null)[];
}

export interface NoticedLine {
  readonly at: string;
  readonly kind: string;
  readonly verdict: Verdict;
  /** Kept for the record and told to nobody: a stop of the site stood. */
  readonly untold: boolean;
  readonly text: string;
}

export interface ObservedLine {
  readonly observation: ObservationAnswer;
  /** What of it lay beyond a bound of the limits of that day. */
  readonly beyond: readonly {
    readonly value: 'windSpeed' | 'windGust' | 'relativeHumidity';
    readonly class: 'hold' | 'stop';
    readonly source: string;
  }[];
}

export interface HistoryView {
  readonly site: { readonly id: string; readonly name: string; readonly timeZone: string };
  readonly day: string;
  readonly asOf: string;
  readonly known: KnownLine;
  readonly plans: readonly PlanLine[];
  readonly told: readonly ToldLine[];
  readonly burns: readonly BurnAnswer[];
  readonly noticed: readonly NoticedLine[];
  readonly observed: readonly ObservedLine[];
  /** Past this many days nothing is kept. */
  readonly keptDays: { readonly plans: number; readonly burns: number; readonly observations: number };
  /** How many days ago the day is; negative ahead. */
  readonly daysAgo: number;
  readonly program: string;
  readonly demo: boolean;
  readonly reader: { readonly language: Language; readonly units: UnitSystem };
  readonly query: Query;
}
