// What lists of thousands of sites ask of the watch: little of each site, of all of them at once.

import type { Answer } from '#core/notices/answer.ts';
import type { DayTold, MessageKind } from '#core/notices/message.ts';
import type { Condition } from '#core/watch/condition.ts';

export interface KeptEvening {
  readonly site: string;
  readonly atMs: number;
  readonly day: DayTold;
}

/** One person's way to a message, or their answer to it. */
export interface ToldPart {
  readonly contact: string;
  /** As a delivery has it; null: not handed over yet. */
  readonly outcome: string | null;
  readonly settledAtMs: number | null;
  readonly deliveredAtMs: number | null;
}

export interface LastTold {
  readonly message: string;
  readonly site: string;
  readonly kind: MessageKind;
  readonly atMs: number;
  readonly deliveries: readonly ToldPart[];
  readonly answers: readonly Pick<Answer, 'contact' | 'said' | 'atMs'>[];
}

/** How everything stood at the last look at a site. */
export interface KeptStood {
  readonly site: string;
  readonly version: number;
  /** Null: nobody has looked yet. */
  readonly judgedAtMs: number | null;
  readonly conditions: readonly Condition[];
}

export interface ListReads {
  /** Of each of these sites; one never written of is not in it. */
  stood(sites: readonly string[]): Promise<KeptStood[]>;
  /** Evening texts that went out since a moment, of all sites, oldest first. */
  evenings(sinceMs: number): Promise<KeptEvening[]>;
  /** Of each of these sites the newest day text or notice since a moment; those that were told nothing are left out. */
  lastTold(sites: readonly string[], sinceMs: number): Promise<LastTold[]>;
  /** Who has none of the texts of an open message, and nobody has answered it: all of their ways have failed. */
  unreached(): Promise<readonly { readonly site: string; readonly contact: string }[]>;
  /** Version of the watch of each site. */
  watchVersions(): Promise<ReadonlyMap<string, number>>;
}
