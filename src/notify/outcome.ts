// Outcomes in one word each.

import type { Outcome, OutcomeReason, Permanent } from './channel.ts';

export const outcome = {
  sent: (reference: string | null): Outcome => ({ kind: 'sent', reference }),
  retry: (reason: OutcomeReason, detail: string, afterMs: number | null = null): Outcome => ({
    kind: 'retry',
    reason,
    afterMs,
    detail,
  }),
  failed: (reason: OutcomeReason, permanent: Permanent, detail: string): Outcome => ({
    kind: 'failed',
    reason,
    permanent,
    detail,
  }),
  uncertain: (reason: OutcomeReason, detail: string): Outcome => ({ kind: 'uncertain', reason, detail }),
} as const;
