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
  audience: Pick<Audience, 'newest' | 'silences'>,
  nowMs: number,
  /** The message that nobody has answered, where this one says so to the office. */
  unanswered: Message | null = null,
): StillToSend {
  if (nowMs > delivery.validUntilMs) return { outcome: 'expired', detail: 'too late' };
  // Everybody of the first step hears of it; who is asked again, or next, only while nobody has answered.
  const again = delivery.asked && (delivery.step > 0 || delivery.repeat > 0);
  if (again && isAnswered(answers)) return { outcome: 'superseded', detail: 'answered' };
  if (message.transitions.length === 0) {
    const isHeld = unanswered !== null && isAllSilenced(unanswered, audience, nowMs);
    return isHeld ? heldBack(audience, nowMs) : { parts: [] };
  }
  const parts = delivery.parts.filter((i) => {
    const transition = message.transitions[i];
    return transition !== undefined && isNewest(transition, audience.newest);
  });
  if (parts.length === 0) return { outcome: 'superseded', detail: 'something newer' };
  const isHeard = (i: number): boolean =>
    !isSilenced(message.transitions[i] as Transition, audience.silences, nowMs);
  const heard = parts.filter(isHeard);
  return heard.length > 0 ? { parts: heard } : heldBack(audience, nowMs);
}

/** True where all of it that still stands is silenced; what has no parts never is. */
function isAllSilenced(
  { transitions }: Message,
  { newest, silences }: Pick<Audience, 'newest' | 'silences'>,
  nowMs: number,
): boolean {
  const standing = transitions.filter((t) => isNewest(t, newest));
  return standing.length > 0 && standing.every((t) => isSilenced(t, silences, nowMs));
}

function heldBack({ silences }: Pick<Audience, 'silences'>, nowMs: number): StillToSend {
  const endsMs = silences.map(({ untilMs }) => untilMs).filter((untilMs) => untilMs > nowMs);
  return { heldUntilMs: Math.min(nowMs + LOOK_AGAIN_MS, ...endsMs) };
}
