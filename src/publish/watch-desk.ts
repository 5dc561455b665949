// What the API and the pages ask of the watch: what stands now, taps, observations, notices, answers, silences. An
// interface, so that publishing knows no store and no channel.

import type { Said } from '#core/notices/answer.ts';
import type { Role } from '#core/notices/contact.ts';
import type { Notice, Transition } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import type { DayPlan } from '#core/plan/plan.ts';
import type { Finding, Verdict } from '#core/rules/finding.ts';
import type { LocalDate } from '#core/units/local-time.ts';
import type { Burn, BurnTap, Tap } from '#core/watch/burn.ts';
import type { BurnIncident } from '#core/watch/burn-incident.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import type { ReadingWhy } from '#publish/wording/reading-form-words.ts';
import type { DeskSite } from './desk.ts';
import type { ListDesk } from './list-desk.ts';
import type { SmokeDesk } from './smoke-desk.ts';
import type { Viewer } from './viewer.ts';

/** A burn with everything that was tapped, in the order in which it was tapped. */
export interface BurnRecord {
  readonly burn: Burn;
  readonly taps: readonly BurnTap[];
  /** Ids of taps that a later one has corrected. */
  readonly replaced: ReadonlySet<string>;
  /** Winds that the crew acknowledged, in that order. */
  readonly briefings: readonly WindBriefing[];
  /** In the order in which they were assigned. */
  readonly incidents: readonly BurnIncident[];
}

export interface LiveNow {
  readonly site: DeskSite;
  readonly asOfMs: number;
  readonly verdict: Verdict;
  readonly unknown: boolean;
  readonly planVerdict: Verdict;
  /** Where it is too late to light and nothing burns: the end of the go. */
  readonly tooLateUntilMs: number | null;
  /** The plan's findings of this moment that are no go, gravest first. */
  readonly findings: readonly Finding[];
  readonly day: DayPlan | null;
  readonly burn: BurnRecord | null;
  readonly observation: Observation | null;
  /** True and unknown ones, worst first. */
  readonly conditions: readonly Condition[];
  readonly notices: readonly Notice[];
  /** In force now. */
  readonly silences: readonly Silence[];
  /** When the forecast that it goes by was made; null where there is none, or it does not say. */
  readonly forecastMadeAtMs: number | null;
  /** What holds may be worse from then on: to be asked again. */
  readonly goodUntilMs: number;
}

export interface TapAsked {
  /** Made by the one who taps, so that the same tap sent again counts once; null: one is made. */
  readonly id: string | null;
  readonly tap: Tap;
  /** Null: now. */
  readonly tappedAtMs: number | null;
  readonly by: string;
  readonly from: string;
  readonly corrects: string | null;
  readonly withdraws: boolean;
  readonly note: string;
}

export interface ObservedItem {
  readonly index: number;
  readonly outcome: 'kept' | 'duplicate' | 'corrected' | 'refused';
  readonly why: string | null;
  readonly path: string | null;
}

/** A meter of a site that is read by hand. */
export interface Meter {
  readonly id: string;
  readonly name: string;
  /** What its directions mean where nobody says. */
  readonly reference: 'true' | 'magnetic' | 'relative';
  readonly takesMagnetic: boolean;
}

/** `field`: its name; `(reading)` of all together. */
export interface FormFault {
  readonly field: string;
  readonly why: ReadingWhy;
}

export interface DeliverySeen {
  readonly contact: string;
  readonly channel: string;
  readonly step: number;
  readonly round: number;
  readonly outcome: string;
  readonly reason: string | null;
  readonly dueAtMs: number;
  readonly settledAtMs: number | null;
  /** When the network said that it had arrived. */
  readonly deliveredAtMs: number | null;
  /** The words that were sent; null where none were. */
  readonly said: string | null;
}

export interface AnswerSeen {
  readonly contact: string;
  readonly answer: Said;
  readonly atMs: number;
  readonly via: string;
}

export interface MessageSeen {
  readonly id: string;
  readonly site: string;
  readonly atMs: number;
  readonly kind: string;
  readonly verdict: Verdict;
  readonly text: string;
  /** The day that an evening or dawn text tells. */
  readonly about: LocalDate | null;
  readonly validUntilMs: number;
  readonly needsAnswer: boolean;
  readonly answers: readonly AnswerSeen[];
  readonly deliveries: readonly DeliverySeen[];
}

/** The text about a day, as the crew of a site gets it. */
export interface DayTextSeen {
  readonly kind: 'evening' | 'dawn';
  /** missed: its time has passed, and none went out. */
  readonly state: 'ahead' | 'sent' | 'missed';
  /** When it is due, or went out. */
  readonly atMs: number;
  /** One for each language that the crew reads; none where nobody can say yet. */
  readonly texts: readonly { readonly language: 'en' | 'es'; readonly text: string }[];
}

/** Sites are named by their keys. Every method throws ServiceError `unknown_site` and `store_unavailable`. */
export interface WatchDesk extends ListDesk, SmokeDesk {
  now(siteKey: string): Promise<LiveNow>;
  /** Of each site a number that is another one when something of its watch was written, by whichever process. */
  versions(siteKeys: readonly string[]): Promise<ReadonlyMap<string, number>>;
  /**
   * Opens a burn with its first tap; `already` where the same tap came before. Throws ServiceError `already_there` where
   * another tap has its id.
   */
  open(siteKey: string, tap: TapAsked): Promise<{ readonly record: BurnRecord; readonly already: boolean }>;
  /** Throws ServiceError `not_found` where there is no such burn, `bad_body` where the tap cannot be, else as `open`. */
  tap(
    siteKey: string,
    burn: string,
    tap: TapAsked,
  ): Promise<{ readonly record: BurnRecord; readonly already: boolean }>;
  burns(siteKey: string, fromMs: number, toMs: number): Promise<readonly BurnRecord[]>;
  burn(siteKey: string, burn: string): Promise<BurnRecord>;
  /** What a dispatch center calls a burn; null takes it back. Throws as `burn`. */
  assign(siteKey: string, burn: string, reference: string | null, by: string): Promise<BurnRecord>;
  /** Each item by itself: one that cannot be read loses nothing of the others. */
  observe(siteKey: string, body: unknown): Promise<readonly ObservedItem[]>;
  meters(siteKey: string): readonly Meter[];
  /** A reading as a person typed it, by the names of its fields; kept only where there is no fault. */
  observeForm(siteKey: string, typed: Readonly<Record<string, string>>): Promise<readonly FormFault[]>;
  observations(siteKey: string, fromMs: number, toMs: number): Promise<readonly Observation[]>;
  /** The same of a span that has passed, however much came since. */
  observedWithin(siteKey: string, fromMs: number, toMs: number): Promise<readonly Observation[]>;
  /** What notices were raised, became and ended, in order; told or not. */
  noticed(siteKey: string, fromMs: number, toMs: number): Promise<readonly Transition[]>;
  /** Null for a past day, and where no such text is sent or nobody is there to get it. */
  dayText(siteKey: string, date: LocalDate): Promise<DayTextSeen | null>;
  notices(viewer: Viewer, siteKey: string | null): Promise<readonly Notice[]>;
  messages(siteKey: string, fromMs: number, toMs: number): Promise<readonly MessageSeen[]>;
  message(viewer: Viewer, id: string): Promise<MessageSeen>;
  /** An answer ends the asking, not what it is about. `once`: the same again is the same answer. */
  answer(
    viewer: Viewer,
    id: string,
    answer: Said,
    by: string,
    via: string,
    once: string | null,
  ): Promise<MessageSeen>;
  /** What a personal link shows; null where the token is none. */
  linked(token: string): Promise<{ readonly message: MessageSeen; readonly contact: string } | null>;
  answerLinked(token: string, answer: Said): Promise<MessageSeen | null>;
  silences(viewer: Viewer): Promise<readonly Silence[]>;
  silence(
    siteKey: string,
    asked: {
      readonly code: string | null;
      readonly minutes: number;
      readonly reason: string;
      readonly by: string;
      readonly role: Role;
      /** The same again gives the same silence; with another request it throws ServiceError `key_reused`. */
      readonly key: string | null;
    },
  ): Promise<{ readonly silence: Silence; readonly already: boolean }>;
  endSilence(viewer: Viewer, id: string, by: string): Promise<Silence>;
  /** A text that came in over a channel; what it was taken for. */
  inbound(channel: string, id: string, from: string, text: string): Promise<{ readonly taken: string }>;
  /** What became of a text that was taken, as its channel says later. Throws ServiceError `not_found` for no channel. */
  receipt(
    channel: string,
    reference: string,
    state: 'delivered' | 'failed' | 'expired' | 'pending',
    code: string | null,
  ): Promise<'delivered' | 'undelivered' | 'pending'>;
  /** Sends a drill to the contacts of a site, marked as one; with the same key again it is the same drill. */
  drill(
    siteKey: string,
    by: string,
    key: string | null,
  ): Promise<{ readonly message: MessageSeen; readonly already: boolean }>;
}
