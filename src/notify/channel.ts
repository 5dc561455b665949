// A channel: the contract by which something said is handed over to a phone, a mailbox or a program.

/**
 * Why it did not go, for records and counters; the list is closed.
 * auth: our own credentials were refused. unreachable: no connection. unavailable: it says that it cannot now.
 * gone: that address is no more. bad-address: it never was one. refused: that message was not taken. unreadable: its
 * answer says neither yes nor no. render: a message that cannot be put into the channel's form. internal: a fault of
 * the program.
 */
export const OUTCOME_REASONS = [
  'auth',
  'rate-limited',
  'unavailable',
  'unreachable',
  'timeout',
  'refused',
  'redirected',
  'gone',
  'bad-address',
  'forbidden-address',
  'opted-out',
  'too-long',
  'render',
  'expired',
  'unreadable',
  'called-off',
  'closed',
  'internal',
] as const;
export type OutcomeReason = (typeof OUTCOME_REASONS)[number];

/** What will fail again: this message, this person's way, or the whole channel. */
export type Permanent = 'message' | 'way' | 'channel';

export type Outcome =
  /** Handed over: whoever is next has taken it. `reference` is what they call it. */
  | { readonly kind: 'sent'; readonly reference: string | null }
  /** Certainly not taken, and worth another try; `afterMs` where they asked for a pause. */
  | {
      readonly kind: 'retry';
      readonly reason: OutcomeReason;
      readonly afterMs: number | null;
      readonly detail: string;
    }
  /** Certainly not taken, and another try is of no use: use the next way at once. */
  | {
      readonly kind: 'failed';
      readonly reason: OutcomeReason;
      readonly permanent: Permanent;
      readonly detail: string;
    }
  /** It may have been taken, or not. */
  | { readonly kind: 'uncertain'; readonly reason: OutcomeReason; readonly detail: string };

export type JsonValue =
  | string
  | number
  | boolean
  | null
  | readonly JsonValue[]
  | { readonly [key: string]: JsonValue };

export interface Outgoing {
  /** The same for every try: by it whoever receives knows a repeat. Letters, digits, `.`, `_` and `-`. */
  readonly id: string;
  /** The contact's address in this channel. */
  readonly to: string;
  readonly subject: string;
  /** The text for a phone: within one segment, but for a push. Where `html` is given, the long form of the same. */
  readonly text: string;
  readonly html: string | null;
  /** This person's own page to answer on; null where there is none, or nothing is asked. */
  readonly link: string | null;
  /** For programs: what happened, when, and its data. */
  readonly event: { readonly type: string; readonly atMs: number; readonly data: JsonValue } | null;
  /** A later one about the same replaces this one where it still waits; null: nothing replaces it. */
  readonly topic: string | null;
  /** Of no use to anybody after this [epoch ms]. */
  readonly validUntilMs: number;
  readonly urgency: 'high' | 'normal';
}

/**
 * ready: it can send now. connecting: not yet, it is at it. broken: what it met last would meet every message until
 * somebody mends something; a try is still a try. closed: it sends no more.
 */
export type ChannelStanding = 'ready' | 'connecting' | 'broken' | 'closed';

export interface ChannelState {
  readonly standing: ChannelStanding;
  readonly sinceMs: number;
  /** Why it is broken, in a line; null otherwise. */
  readonly detail: string | null;
}

export interface Channel {
  /** Never throws; `signal` calls off what is not yet under way. */
  send(outgoing: Outgoing, signal: AbortSignal): Promise<Outcome>;
  state(): ChannelState;
  close(): Promise<void>;
}

/** What became of something sent, as the network tells later. */
export interface Receipt {
  readonly reference: string;
  readonly state: 'delivered' | 'failed' | 'expired' | 'pending';
  /** The network's own code, where it tells one. */
  readonly code: string | null;
}

export interface InboundText {
  /** The same where it is handed to us again, as far as that can be known. */
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly text: string;
  /** True for a later part of a longer text, which is never an answer by itself. */
  readonly continues: boolean;
}

export interface ChannelClock {
  nowMs(): number;
  /** Runs once, so long from now; what it gives back calls it off. */
  after(ms: number, run: () => void): () => void;
}

export interface ChannelDeps {
  readonly clock: ChannelClock;
  /** The value of an environment variable; null where it is not set. */
  secret(name: string): string | null;
  /** Addresses of a name, as the system resolves it. */
  resolve(hostname: string): Promise<readonly string[]>;
  /** In [0, 1), for waits that must not fall together. */
  random(): number;
  /** Certificates of own authorities, PEM, beside the system's; null: only those. */
  readonly trust: string | null;
  /** Resolves when it is kept: what was not kept is told again. */
  onReceipt(receipt: Receipt): Promise<void>;
  onInbound(text: InboundText): Promise<void>;
}
