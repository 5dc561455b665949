// At the moment of sending: what of a delivery is still to be said, if anything. Looked at last of all, so that nothing
// older is told after something newer, nor anything to somebody else after it was answered.

import type { Answer } from './answer.ts';
import type { Delivery, DeliveryOutcome } from './delivery.ts';
import { isAnswered } from './last-answers.ts';
import type { Message } from './message.ts';
import { type Audience, isNewest } from './who-is-told.ts';

export type StillToSend =
  | { readonly parts: readonly number[] }
  | { readonly outcome: Extract<DeliveryOutcome, 'expired' | 'superseded'>; readonly detail: string };

export function stillToSend(
  delivery: Delivery,
  message: Message,
  answers: readonly Answer[],
  newest: Audience['newest'],
  nowMs: number,
): StillToSend {
  if (nowMs > delivery.validUntilMs) return { outcome: 'expired', detail: 'too late' };
  // Everybody of the first step hears of it; who is asked again, or next, only while nobody has answered.
  const again = delivery.asked && (delivery.step > 0 || delivery.repeat > 0);
  if (again && isAnswered(answers)) return { outcome: 'superseded', detail: 'answered' };
  if (message.transitions.length === 0) return { parts: [] };
  const parts = delivery.parts.filter((i) => {
    const transition = message.transitions[i];
    return transition !== undefined && isNewest(transition, newest);
  });
  return parts.length === 0 ? { outcome: 'superseded', detail: 'something newer' } : { parts };
}
