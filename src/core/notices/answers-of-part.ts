// The answers that count for one part of a message: a silence may have kept that part from whoever answered.

import type { OpenMessage } from './acknowledge.ts';
import type { Answer } from './answer.ts';
import { answersThatCount } from './answers-that-count.ts';
import type { Delivery } from './delivery.ts';

/** A "got it" takes on what that person was told; a "cannot" is about all of it. */
export function answersOfPart(
  { message, deliveries, answers }: OpenMessage,
  part: number,
): readonly Answer[] {
  const told = deliveries.filter((d) => wasHandedOver(d));
  const isTold = (some: readonly Delivery[]): boolean => some.some(({ parts }) => parts.includes(part));
  return answersThatCount(message, answers).filter(({ said, contact, via }) => {
    if (said === 'cannot') return true;
    // A key names the message by itself, and may be no contact; it answers for whoever was told, if anybody was.
    if (via === 'api') return told.length === 0 || isTold(told);
    return isTold(told.filter((d) => d.contact === contact));
  });
}

/** Its parts are those that were said, then. Whatever became of it: who answers by its link has it. */
const wasHandedOver = ({ outcome, triedAtMs }: Delivery): boolean =>
  triedAtMs !== null && outcome !== 'expired' && outcome !== 'superseded';
