// What is remembered of the watch, as the rest of the program sees it.

import type { NewEvent } from '#core/events/event.ts';
import type { Answer } from '#core/notices/answer.ts';
import type { DayTextKey } from '#core/notices/day-texts.ts';
import type { Delivery } from '#core/notices/delivery.ts';
import type { SendTimes } from '#core/notices/lease-fits.ts';
import type { DayTold, Message } from '#core/notices/message.ts';
import type { Notice, Transition } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import type { Burn, BurnTap } from '#core/watch/burn.ts';
import type { BurnIncident } from '#core/watch/burn-incident.ts';
import type { Condition } from '#core/watch/condition.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { WindBriefing } from '#core/watch/wind-briefing.ts';
import type { AuditRow } from '#store/api-key.ts';
import type { HistoryReads } from './history-records.ts';
import type { ListReads } from './list-records.ts';

export interface KeptObservation extends Observation {
  /** 0 for what was told first of a station and moment; a correction has the next. */
  readonly revision: number;
}

export interface KeptDayText extends DayTextKey {
  readonly atMs: number;
  /** The message that told it. */
  readonly message: string;
  readonly day: DayTold;
}

export interface OptOut {
  readonly organisation: string;
  /** Contact's id. */
  readonly contact: string;
  readonly address: string;
  /** Null: the person opted in again. */
  readonly optedOutAtMs: number | null;
  /** What they wrote. */
  readonly word: string;
}

/**
 * Everything that one look at a site leaves behind, written together or not at all. What is there already, by its key, is
 * passed over: taps, observations, messages, deliveries, answers and day texts can be sent again.
 */
export interface WatchPatch {
  /** `organisation/id`. */
  readonly site: string;
  /**
   * The version that it was made from, 0 before the first. Burns and notices are never written without. Null for what
   * rests on nothing that was read.
   */
  readonly replaces: number | null;
  /** Set where everything that is watched was judged [epoch ms]. */
  readonly judgedAtMs?: number;
  /** How everything stood then. Replaces what is known. */
  readonly conditions?: readonly Condition[];
  readonly taps?: readonly BurnTap[];
  /** Replace what is known of them. */
  readonly burns?: readonly Burn[];
  readonly observations?: readonly KeptObservation[];
  /** Replace what is known of them. */
  readonly notices?: readonly Notice[];
  readonly transitions?: readonly Transition[];
  readonly messages?: readonly Message[];
  readonly deliveries?: readonly Delivery[];
  readonly answers?: readonly Answer[];
  readonly briefings?: readonly WindBriefing[];
  readonly incidents?: readonly BurnIncident[];
  /** New ones, and such as were ended. */
  readonly silences?: readonly Silence[];
  readonly optOuts?: readonly OptOut[];
  readonly dayTexts?: readonly KeptDayText[];
  /** Messages of which nothing more is to be sent. */
  readonly closed?: readonly { readonly message: string; readonly atMs: number }[];
  /** Beside those of its taps and transitions, which the store adds. */
  readonly events?: readonly NewEvent[];
  readonly audit?: readonly AuditRow[];
}

/** What of a patch was new. */
export interface WatchKept {
  readonly site: string;
  /** Of the site's watch after it. */
  readonly version: number;
  readonly taps: readonly string[];
  readonly observations: readonly Pick<KeptObservation, 'station' | 'observedAtMs' | 'revision'>[];
  readonly messages: readonly string[];
  readonly answers: readonly string[];
}

/** What the next look at a site starts from. */
export interface WatchState {
  readonly site: string;
  readonly version: number;
  readonly judgedAtMs: number | null;
  /** All conditions as they stood then, whatever was told of them. */
  readonly conditions: readonly Condition[];
  /** Those that stand, and such as were judged since the moment asked for. */
  readonly notices: readonly Notice[];
  readonly openBurns: readonly Burn[];
  /** Of the open burns, in the order in which they were acknowledged. */
  readonly briefings: readonly WindBriefing[];
}

/** A message with everything that escalation and answers need. */
export interface MessageThread {
  readonly message: Message;
  readonly closedAtMs: number | null;
  readonly deliveries: readonly KeptDelivery[];
  readonly answers: readonly Answer[];
}

export interface KeptDelivery extends Delivery {
  /** Stable over all tries: what the other side may know it by. */
  readonly id: string;
  readonly tries: number;
  readonly said: string | null;
  /** When the network said that it had arrived [epoch ms]; null: it has not said so. */
  readonly deliveredAtMs: number | null;
}

export interface ClaimedDelivery extends KeptDelivery {
  /** Rises with every claim: only the last claimer may settle. */
  readonly token: number;
  /** An earlier claim has tried it, or may have. */
  readonly wasTried: boolean;
  readonly leaseUntilMs: number;
}

export interface ClaimDeliveries extends SendTimes {
  readonly worker: string;
  readonly nowMs: number;
  /** At most so many of each of these channels; and in all of the others together. */
  readonly room?: ReadonlyMap<string, number>;
  readonly most: number;
}

export interface Settlement {
  readonly id: string;
  readonly token: number;
  readonly atMs: number;
  /** `again`: not yet; to be tried no sooner than `notBeforeMs`, which is at most five minutes ahead. */
  readonly outcome: NonNullable<Delivery['outcome']> | 'again';
  readonly notBeforeMs?: number;
  /** True of `again`: it was handed to nobody, and the claim was no try. */
  readonly isUntried?: boolean;
  /** As the claim gave it: what was tried before stays so. */
  readonly wasTried?: boolean;
  /** Which of the message's transitions were said; without it, those that were to be. */
  readonly parts?: readonly number[];
  readonly detail: string | null;
  /** The words that were sent; null where none were. */
  readonly said: string | null;
}

/** What a network says later of a text that it had taken. */
export interface KeptReceipt {
  readonly channel: string;
  /** What it called the text. */
  readonly reference: string;
  readonly state: 'delivered' | 'undelivered';
  /** Why, as the network says. */
  readonly code: string | null;
  readonly atMs: number;
}

export interface MatchedReceipt extends Pick<KeptReceipt, 'channel' | 'state'> {
  readonly delivery: string;
  readonly message: string;
}

export interface KeptBurn {
  readonly burn: Burn;
  readonly taps: readonly BurnTap[];
  readonly briefings: readonly WindBriefing[];
  /** In the order in which they were assigned. */
  readonly incidents: readonly BurnIncident[];
}

export interface WatchFigures {
  readonly openBurns: number;
  /** Those that somebody was told of and that are not over. */
  readonly noticesByCode: ReadonlyMap<string, number>;
  /** Deliveries due since the moment asked for that did not arrive, or of which nobody knows, by outcome. */
  readonly undelivered: ReadonlyMap<string, number>;
}

export interface WatchRecords extends ListReads, HistoryReads {
  /**
   * Writes patches in one transaction, all or none, and tells what was new, in their order. Throws ServiceError
   * `changed_meanwhile` (retryable) where somebody else wrote of a site since it was read: read it again and judge anew.
   */
  commit(patches: readonly WatchPatch[]): Promise<WatchKept[]>;
  state(site: string, sinceMs: number): Promise<WatchState>;
  /** How often each of these sites was written of: another number, and something of it is new. One never written of is not in it. */
  versions(sites: readonly string[]): Promise<ReadonlyMap<string, number>>;
  /** When each site was last judged, of all sites; one that never was is not in it [epoch ms]. */
  judged(): Promise<ReadonlyMap<string, number>>;
  /** Burns that must be watched, of all sites or of those named. */
  openBurns(sites?: readonly string[]): Promise<Burn[]>;
  /** A burn with its taps in the order in which they were tapped, and what its crew acknowledged; null where there is none. */
  burn(site: string, id: string): Promise<KeptBurn | null>;
  /** Taps of a site by their ids, of whichever burns; those that are not kept are not in it. */
  tapsNamed(site: string, ids: readonly string[]): Promise<BurnTap[]>;
  /** Burns opened within [from, to), newest first. */
  burns(site: string, fromMs: number, toMs: number, most: number): Promise<Burn[]>;
  /**
   * Burns opened by a moment and not covered by another, of all sites: those open at both where they are one. A burn lit
   * again after its cover counts as open all the time; its taps tell more.
   */
  burnsAt(openedByMs: number, coveredAfterMs: number): Promise<Burn[]>;
  /**
   * The newest revisions of what was observed since a moment (and before another, where one is given), in order of time; of
   * each station the newest, where it has more.
   */
  observations(
    site: string,
    sinceMs: number,
    mostPerStation: number,
    beforeMs?: number,
  ): Promise<KeptObservation[]>;
  /** Notices that stand, of all sites or of those named: what is in force now, whatever was sent. */
  standing(sites?: readonly string[]): Promise<Notice[]>;
  /** Transitions within [from, to), in order. */
  transitions(site: string, fromMs: number, toMs: number, most: number): Promise<Transition[]>;
  /** Who was told of these episodes, as `heardKey` writes it. */
  heard(episodes: readonly Pick<Transition, 'notice' | 'episode'>[]): Promise<ReadonlySet<string>>;
  /** How far these notices have come, by key; what is not known is not in it. */
  newest(notices: readonly string[]): Promise<ReadonlyMap<string, Pick<Notice, 'episode' | 'number'>>>;
  thread(message: string): Promise<MessageThread | null>;
  /** Whether an answer of that id was kept, to whichever message. */
  isAnswerKept(id: string): Promise<boolean>;
  /** In any order; those that are not there are left out. */
  threadsNamed(messages: readonly string[]): Promise<MessageThread[]>;
  /** Messages of a site within [from, to), newest first. */
  threads(site: string, fromMs: number, toMs: number, most: number): Promise<MessageThread[]>;
  /** Messages about which something may still be to be done, oldest first; of all sites or of those named. */
  openThreads(most: number, sites?: readonly string[]): Promise<MessageThread[]>;
  /** Messages that were sent to an address since a moment and about which nothing is to be done any more, newest first. */
  endedThreads(address: string, sinceMs: number, most: number): Promise<MessageThread[]>;
  /** Silences that are not over. */
  silences(sites: readonly string[], nowMs: number): Promise<Silence[]>;
  /** One of any time, ended or not; null where there is none. */
  silence(id: string): Promise<Silence | null>;
  optOuts(organisation: string): Promise<OptOut[]>;
  /** Of a local date and later. */
  dayTexts(site: string, fromDate: string): Promise<KeptDayText[]>;
  /**
   * Hands out deliveries that are due, the most urgent first, each to one worker at a time: for the length of its lease it
   * is nobody else's. What has become of no use is settled as `expired` on the way. Throws `internal` where the times do
   * not fit each other.
   */
  claimDeliveries(claim: ClaimDeliveries): Promise<ClaimedDelivery[]>;
  /** What a silence held back at these sites is looked at again now. Gives how many. */
  releaseHeld(sites: Iterable<string>, nowMs: number): Promise<number>;
  /** Frees what is claimed: for a process that has the store to itself, where every other claimer is dead. */
  releaseClaims(): Promise<number>;
  /** Notes what came of deliveries, in one transaction. Gives the ids of those that were no longer the caller's. */
  settle(settlements: readonly Settlement[]): Promise<string[]>;
  /** The same one again is passed over. */
  keepReceipt(receipt: KeptReceipt): Promise<void>;
  /**
   * Notes what became of the texts that receipts are of, as far as they are known by now: those that did not arrive have
   * failed, and their messages are open again while they are of use.
   */
  matchReceipts(nowMs: number): Promise<MatchedReceipt[]>;
  /** The secret of that name; `fresh` becomes it where there is none yet. The same in every process. */
  secret(name: string, fresh: string): Promise<string>;
  pending(
    nowMs: number,
  ): Promise<{ readonly waiting: number; readonly claimed: number; readonly oldestDueMs: number | null }>;
  figures(sinceMs: number): Promise<WatchFigures>;
  /** Deliveries that did not arrive, or of which nobody knows, since a moment, newest first; of some sites where named. */
  undelivered(sinceMs: number, most: number, sites?: readonly string[]): Promise<KeptDelivery[]>;
}
