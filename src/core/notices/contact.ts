// Somebody who is told: over what, in which language, when not, and who is asked next where no answer comes.

export type ChannelName = 'sms' | 'email' | 'push' | 'webhook';
export type Role = 'crew' | 'office' | 'dispatch';

export interface ContactWay {
  /** A configured channel: what `channels` of the configuration calls it. */
  readonly channel: string;
  /** Number (E.164), e-mail address, push subscription or address of a webhook. */
  readonly to: string;
}

/** How it came that this person may be texted. */
export interface Consent {
  readonly atMs: number;
  readonly how: string;
  readonly by: string;
  readonly textVersion: string;
}

export interface Contact {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** Site ids; null: all of the organisation. */
  readonly sites: readonly string[] | null;
  readonly language: 'en' | 'es';
  readonly units: 'us' | 'si';
  /** In order: the next is used where one fails. */
  readonly ways: readonly ContactWay[];
  /** Local to the site, half open, may run over midnight; null: none. Passed only by stop on an open burn. */
  readonly quiet: { readonly from: string; readonly to: string } | null;
  readonly consent: Consent | null;
  /** Set by an inbound opt-out word, cleared only by the person's own opt-in [epoch ms]. Sending to such a one has failed. */
  readonly optedOutAtMs: number | null;
  /** 0 is told first; the next step after its deadline without an answer. */
  readonly step: number;
}
