// A channel that asks for a pause: what is urgent does not wait for it where there is another way.

import type { Delivery } from './delivery.ts';

/** Longer than this nobody waits with a stop or a hold. Ours: no source. */
const LONG_MS = 15_000;
/** A hold, and whatever is more urgent. */
const URGENT = 1;

/** True where the next way is to be used meanwhile. What a silence holds back, and no channel was asked to take, is not. */
export const isPutOff = (
  {
    outcome,
    urgency,
    notBeforeMs,
    triedAtMs,
  }: Pick<Delivery, 'outcome' | 'urgency' | 'notBeforeMs' | 'triedAtMs'>,
  nowMs: number,
): boolean =>
  outcome === null &&
  triedAtMs !== null &&
  urgency <= URGENT &&
  notBeforeMs !== null &&
  notBeforeMs > nowMs + LONG_MS;

/** True where it was put off, and the same person has been told by another way since. */
export const wentAnotherWay = (delivery: Delivery, all: readonly Delivery[]): boolean =>
  delivery.notBeforeMs !== null &&
  all.some(
    (d) =>
      d.contact === delivery.contact &&
      d.step === delivery.step &&
      d.asked === delivery.asked &&
      d.repeat >= delivery.repeat &&
      d.way !== delivery.way &&
      d.outcome === 'sent',
  );
