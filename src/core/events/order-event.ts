// A burn ban or another order that was added, changed or lifted → an event of the whole organisation: which sites it names is
// in its data.

import type { EventKind, NewEvent } from './event.ts';

export interface OrderChange {
  readonly organisation: string;
  readonly id: string;
  /** From 1. */
  readonly revision: number;
  /** As written; null: lifted. */
  readonly body: unknown;
  readonly changedAtMs: number;
  readonly changedBy: string;
}

/** `before`: as it was written until now; null where there was none. Whoever it was for until now is told, too. */
export function orderEvent(
  before: unknown,
  { organisation, id, revision, body, changedAtMs, changedBy }: OrderChange,
): NewEvent {
  const kept: EventKind = revision === 1 ? 'order-added' : 'order-changed';
  return {
    organisation,
    site: null,
    kind: body === null ? 'order-lifted' : kept,
    subject: id,
    atMs: changedAtMs,
    validUntilMs: null,
    data: { order: id, revision, by: changedBy, body, before },
  };
}
