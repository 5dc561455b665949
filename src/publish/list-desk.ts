// What lists of sites ask of the watch: what is known of all of them at once. A part of the watch's desk.

import type { DayTold } from '#core/notices/message.ts';
import type { Notice } from '#core/notices/notice.ts';
import type { Verdict } from '#core/rules/finding.ts';
import type { Burn } from '#core/watch/burn.ts';

export interface EveningSeen {
  readonly atMs: number;
  readonly day: DayTold;
}

export interface StoodUnlit {
  readonly verdict: Verdict;
  /** A hold only because nobody can say. */
  readonly unknown: boolean;
}

/** All by site key; a site of which nothing is known is not in it. */
export interface ListedNow {
  /** The open burn that was opened last. */
  readonly burns: ReadonlyMap<string, Burn>;
  /** What is not over, told or not yet. */
  readonly notices: ReadonlyMap<string, readonly Notice[]>;
  /** The newest evening text that went out. */
  readonly evenings: ReadonlyMap<string, EveningSeen>;
  /** Names of those whom something that still matters has reached by none of their ways. */
  readonly undelivered: ReadonlyMap<string, readonly string[]>;
  /** What is known of a site where nothing burns, beside its plan; null: nothing that bars a go. */
  stood(siteKey: string): StoodUnlit | null;
  /** Rises with everything that is written of a site's watch. */
  readonly versions: ReadonlyMap<string, number>;
}

/** seen, cannot: they answered. delivered: the network says so. waiting: not handed over yet. */
export type HeardHow = 'seen' | 'cannot' | 'delivered' | 'sent' | 'uncertain' | 'waiting' | 'failed';

export interface CrewHeard {
  readonly contact: string;
  readonly how: HeardHow;
  /** Null where it has not happened yet. */
  readonly atMs: number | null;
}

/** What a crew was told last, and what became of it. */
export interface CrewTold {
  readonly kind: 'evening' | 'dawn' | 'notice';
  readonly atMs: number;
  readonly crew: readonly CrewHeard[];
}

export interface ListDesk {
  listed(): Promise<ListedNow>;
  /** Sites whose crew was told nothing of late are left out. */
  crewTold(siteKeys: readonly string[]): Promise<ReadonlyMap<string, CrewTold>>;
}
