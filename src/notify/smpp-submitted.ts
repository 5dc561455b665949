// What became of a text that was handed to a session.

import type { OutcomeReason } from './channel.ts';

export type Submitted =
  | { readonly kind: 'answered'; readonly status: number; readonly messageId: string | null }
  /** Certainly not sent. */
  | { readonly kind: 'not-sent'; readonly reason: OutcomeReason; readonly detail: string }
  /** Sent, and no answer came. */
  | { readonly kind: 'unanswered'; readonly reason: OutcomeReason; readonly detail: string };

export const notSent = (reason: OutcomeReason, detail: string): Submitted => ({
  kind: 'not-sent',
  reason,
  detail,
});
