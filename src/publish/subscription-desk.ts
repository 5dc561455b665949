// Subscriptions of programs that are sent what happens: what the API asks of the rest.

import type { HookStanding, TryOutcome } from '#core/events/hook-step.ts';
import type { SubscriptionBody } from '#core/events/subscription.ts';
import type { OnceOutcome } from '#store/once.ts';
import type { Viewer } from './viewer.ts';

export interface SubscriptionSeen {
  readonly id: string;
  /** From 1. */
  readonly revision: number;
  readonly body: SubscriptionBody;
  readonly madeAtMs: number;
  readonly changedAtMs: number;
  readonly changedBy: string;
  /** When the older of two secrets ends [epoch ms]; null: there is one. */
  readonly olderSecretUntilMs: number | null;
  readonly standing: HookStanding;
  readonly lastTakenAtMs: number | null;
}

export interface DeliverySeen {
  readonly number: number;
  readonly webhookId: string;
  readonly type: string;
  readonly atMs: number;
  readonly tookMs: number;
  readonly outcome: TryOutcome;
  readonly status: number | null;
  readonly reason: string | null;
  readonly detail: string | null;
}

export interface OnceAsked {
  readonly key: string;
  readonly requestHash: string;
}

export interface SubscriptionChanged {
  readonly outcome: OnceOutcome;
  readonly replayed: boolean;
}

/** `secret`: null where none was made. */
export type SayChanged = (seen: SubscriptionSeen, secret: string | null) => OnceOutcome;

/**
 * What a viewer may not see is as if it were not there: whoever is for some sites only sees what was written by keys for
 * these alone. Every method throws ServiceError `store_unavailable`, and where it names one, `not_found`; what changes
 * one, `changed_meanwhile` where none of `replaces` is its revision, and `bad_body` (facts.faults).
 */
export interface SubscriptionDesk {
  /** In the order in which they were made. */
  list(viewer: Viewer): Promise<readonly SubscriptionSeen[]>;
  one(viewer: Viewer, id: string): Promise<SubscriptionSeen>;
  /** Throws `key_reused`. */
  add(
    viewer: Viewer,
    body: SubscriptionBody,
    once: OnceAsked | null,
    say: SayChanged,
  ): Promise<SubscriptionChanged>;
  change(
    viewer: Viewer,
    asked: { readonly id: string; readonly replaces: readonly number[]; readonly body: SubscriptionBody },
    say: SayChanged,
  ): Promise<SubscriptionChanged>;
  remove(viewer: Viewer, id: string, replaces: readonly number[]): Promise<void>;
  /** A new secret; the one before signs for so long beside it. Throws `key_reused`. */
  rotate(
    viewer: Viewer,
    asked: { readonly id: string; readonly replaces: readonly number[]; readonly overlapMs: number },
    once: OnceAsked | null,
    say: SayChanged,
  ): Promise<SubscriptionChanged>;
  /** Newest first; `before`: a number. */
  deliveries(
    viewer: Viewer,
    id: string,
    asked: { readonly before: number | null; readonly most: number },
  ): Promise<readonly DeliverySeen[]>;
  /** Sends what comes after this position anew. */
  replay(viewer: Viewer, id: string, after: number): Promise<SubscriptionSeen>;
  /** Sends a test now, and tells what became of it. Throws `too_many_requests` while another is under way. */
  test(viewer: Viewer, id: string): Promise<Omit<DeliverySeen, 'number'>>;
}
