// What is kept of subscriptions: as they were written, how far each has come, and what became of each try.

import type { NewEvent } from '#core/events/event.ts';
import type { HookStanding, TryOutcome } from '#core/events/hook-step.ts';
import type { SubscriptionBody } from '#core/events/subscription.ts';
import type { AuditRow } from '#store/api-key.ts';
import type { Once, OnceOutcome } from '#store/once.ts';

export interface HookSecret {
  /** `whsec_…`; it must be read to sign with it. */
  readonly secret: string;
  /** Signs until then [epoch ms]; null: until another takes its place. */
  readonly untilMs: number | null;
}

export interface Subscription {
  readonly id: string;
  readonly organisation: string;
  /** From 1. */
  readonly revision: number;
  readonly body: SubscriptionBody;
  /** Prefix of the key that wrote it last, by which it may see what it is sent; null: none was asked for. */
  readonly key: string | null;
  /** The newest first. */
  readonly secrets: readonly HookSecret[];
  readonly madeAtMs: number;
  readonly changedAtMs: number;
  readonly changedBy: string;
}

export interface KeptHook {
  readonly subscription: Subscription;
  readonly standing: HookStanding;
  /** Raised whenever somebody changes where it stands: what was under way then settles nothing. */
  readonly turn: number;
  /** Of all tries. */
  readonly attempts: number;
  readonly lastTakenAtMs: number | null;
}

export interface HookAttempt {
  /** Rises by one from try to try of a subscription. */
  readonly number: number;
  /** The same for every try of the same: the id of the event, where it was one. */
  readonly webhookId: string;
  readonly type: string;
  readonly atMs: number;
  readonly tookMs: number;
  readonly outcome: TryOutcome;
  /** HTTP status; null: no answer. */
  readonly status: number | null;
  /** Why not, in a word and in a line; null: it was taken. */
  readonly reason: string | null;
  readonly detail: string | null;
}

export type NewAttempt = Omit<HookAttempt, 'number'>;

/** What whoever asked is told, and told again where the same request comes a second time. */
export interface HookReply {
  /** Null: it carried no key by which to know it again. */
  readonly request: Once | null;
  readonly reply: (made: KeptHook) => OnceOutcome;
}

export interface HookReplied {
  readonly outcome: OnceOutcome;
  /** It came before: nothing was done. */
  readonly replayed: boolean;
}

/** Every method throws ServiceError `store_unavailable`; those that change one, `not_found`. */
export interface HookRecords {
  /** Position of the last event, and a number that differs whenever a subscription was written or moved. */
  marks(): Promise<{ readonly last: number; readonly changed: number }>;
  all(): Promise<KeptHook[]>;
  /** In the order in which they were made. */
  of(organisation: string): Promise<KeptHook[]>;
  one(id: string): Promise<KeptHook | null>;
  /** It begins with what comes after this moment. Throws `key_reused`. */
  add(subscription: Subscription, audit: AuditRow, reply: HookReply): Promise<HookReplied>;
  /**
   * `subscription.revision` is the one that is made. It goes on where it stood, at once, and if it had ended, anew. Throws
   * `changed_meanwhile`, `key_reused`.
   */
  change(subscription: Subscription, audit: AuditRow, reply: HookReply): Promise<HookReplied>;
  /** With all that is kept of it. Throws `changed_meanwhile`. */
  remove(id: string, revision: number, audit: AuditRow): Promise<void>;
  /** Goes on after this position, at once. */
  moveTo(id: string, position: number, audit: AuditRow): Promise<void>;
  /**
   * Takes subscriptions for one worker, all in one step: what waits for a disk waits once. Gives those that it got: not what
   * another has, is gone, or has ended. A claim that is not renewed for `deadAfterMs` by the database's clock goes to the
   * next who asks.
   */
  claim(ids: readonly string[], worker: string, deadAfterMs: number): Promise<KeptHook[]>;
  /**
   * Keeps what a try made of it, and renews the claim. Null where it is no longer this worker's, or was changed meanwhile:
   * where it stands is then left as it is. `attempt` is kept in either case; `event` only where it stands as asked.
   */
  settle(
    id: string,
    by: { readonly worker: string; readonly turn: number },
    standing: HookStanding,
    attempt: NewAttempt | null,
    event: NewEvent | null,
  ): Promise<KeptHook | null>;
  /** Keeps a try that moved nothing. */
  note(id: string, attempt: NewAttempt): Promise<void>;
  release(id: string, worker: string): Promise<void>;
  /** Of all workers: where they are known to be dead. */
  releaseAll(): Promise<void>;
  /** Newest first; `before`: a number. */
  attempts(
    id: string,
    asked: { readonly before: number | null; readonly most: number },
  ): Promise<HookAttempt[]>;
}

/** Tries that are kept of each subscription. */
export const MOST_ATTEMPTS = 1000;
