// A subscription that is sent nothing more → an event of the whole organisation. Its address is not in it: it may carry a secret.

import type { NewEvent } from './event.ts';
import type { HookEnd, HookStanding } from './hook-step.ts';

export interface EndedSubscription {
  readonly subscription: string;
  readonly description: string;
  readonly why: HookEnd;
  /** The last event that it was sent, or that was counted as missed: it can go on from there. */
  readonly after: string;
}

/** Null where it has not ended. */
export function endedEvent(
  {
    id,
    organisation,
    description,
  }: { readonly id: string; readonly organisation: string; readonly description: string },
  { ended, position }: HookStanding,
): NewEvent | null {
  if (ended === null) return null;
  const data: EndedSubscription = { subscription: id, description, why: ended.why, after: String(position) };
  return {
    organisation,
    site: null,
    kind: 'subscription-ended',
    subject: id,
    atMs: ended.atMs,
    validUntilMs: null,
    data,
  };
}
