// At the moment of sending: what of a delivery is still to be said, if anything. Looked at last of all, so that nothing
// older is told after something newer, nor anything to somebody else after it was answered, nor what is silenced by then.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Answer } from './answer.ts';
import type { Delivery, DeliveryOutcome } from './delivery.ts';
import { isAnswered } from './last-answers.ts';
import type { Message } from './message.ts';
import type { Transition } from './notice.ts';
import { isSilenced } from './silence.ts';
import { type Audience, isNewest } from './who-is-told.ts';

export type StillToSend =
  | { readonly parts: readonly number[] }
  | { readonly outcome: Extract<DeliveryOutcome, 'expired' | 'superseded'>; readonly detail: string }
  /** Silenced: it waits, and is looked at again then [epoch ms]. */
  | { readonly heldUntilMs: number };

/** A silence may be ended at any time. */
const LOOK_AGAIN_MS = MINUTE_MS;

export function stillToSend(
  delivery: Delivery,
  message: Message,
  answers: readonly Answer[],
  { newest, silences }: Pick<Audience, 'newest' | 'silences'>,
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
  if (parts.length === 0) return { outcome: 'superseded', detail: 'something newer' };
  const heard = parts.filter((i) => !isSilenced(message.transitions[i] as Transition, silences, nowMs));
  if (heard.length > 0) return { parts: heard };
  const endsMs = silences.map(({ untilMs }) => untilMs).filter((untilMs) => untilMs > nowMs);
  return { heldUntilMs: Math.min(nowMs + LOOK_AGAIN_MS, ...endsMs) };
}
