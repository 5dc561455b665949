// Published messages of the Common Alerting Protocol: written once, never changed.

import type { ChainMessage } from '#core/cap/step-chain.ts';

export interface CapHead extends ChainMessage {
  readonly organisation: string;
  /** `organisation/id`. */
  readonly site: string;
  readonly chain: string;
  readonly number: number;
  readonly headline: string;
  readonly summary: string;
  /** What it was made from. */
  readonly told: unknown;
}

export interface CapMessage extends CapHead {
  /** XML. */
  readonly body: string;
}

export interface CapFeed {
  readonly position: number;
  readonly round: number;
}

/** Those that expire after `afterMs`: the newest, and whatever is the last word of its chain and in force at `nowMs`. */
export interface CapAsked {
  readonly nowMs: number;
  readonly afterMs: number;
  /** How many of the newest. */
  readonly most: number;
}

export interface CapRecords {
  /** Null before the first writing. */
  feed(organisation: string): Promise<CapFeed | null>;
  /** Messages of chains, each chain from its beginning. */
  chains(organisation: string, chains: readonly string[]): Promise<CapHead[]>;
  /** The last message of each chain that has no end yet. */
  open(organisation: string): Promise<CapHead[]>;
  /** All or nothing; false where somebody else has written since `replaces` was read. */
  add(
    organisation: string,
    position: number,
    replaces: CapFeed | null,
    messages: readonly CapMessage[],
  ): Promise<boolean>;
  message(organisation: string, identifier: string): Promise<CapMessage | null>;
  /** Newest first; of some sites where named. */
  living(organisation: string, asked: CapAsked, sites?: readonly string[]): Promise<CapHead[]>;
}
