// A message and those who are told of it, played minute by minute.

import type { Answer, Said } from '#core/notices/answer.ts';
import type { Contact } from '#core/notices/contact.ts';
import type { Delivery, DeliveryOutcome } from '#core/notices/delivery.ts';
import { type EscalationState, escalate } from '#core/notices/escalate.ts';
import type { Message } from '#core/notices/message.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { audienceOf, noticeMessage, settled } from './contacts.ts';
import { EIGHT_MS } from './notices.ts';

export interface Play {
  readonly contacts: readonly Contact[];
  readonly message?: Message;
  readonly audience?: Partial<Audience>;
  readonly outcome?: (d: Delivery) => DeliveryOutcome | null;
  readonly answers?: readonly { readonly minute: number; readonly contact: string; readonly said: Said }[];
  readonly minutes?: readonly number[];
}

export const UP_TO_AN_HOUR = Array.from({ length: 66 }, (_, minute) => minute);

/** `minute contact channel #repeat`, in the order in which they became due; and the state at each minute. */
export function play({ contacts, minutes = UP_TO_AN_HOUR, outcome = () => 'sent', ...given }: Play) {
  const message = given.message ?? noticeMessage();
  let deliveries: Delivery[] = [];
  const said: string[] = [];
  const states = new Map<number, EscalationState>();
  for (const minute of minutes) {
    const nowMs = EIGHT_MS + minute * MINUTE_MS;
    const answers: Answer[] = (given.answers ?? [])
      .filter((a) => a.minute <= minute)
      .map((a, i) => ({
        id: `a${i}`,
        message: message.id,
        site: message.site,
        contact: a.contact,
        said: a.said,
        via: 'digit',
        atMs: EIGHT_MS + a.minute * MINUTE_MS,
        receivedAtMs: EIGHT_MS + a.minute * MINUTE_MS,
      }));
    // Failures are known at once, and what follows upon them follows in the same minute.
    for (let rounds = 0; rounds < 9; rounds += 1) {
      const audience = audienceOf(contacts, given.audience);
      const { due, state } = escalate({ message, deliveries, answers, audience, nowMs });
      states.set(minute, state);
      said.push(...due.map((d) => `${minute} ${d.contact} ${d.detail ?? d.channel} #${d.repeat}`));
      if (due.length === 0) break;
      deliveries = [...deliveries, ...due].map((d) => {
        const came = d.outcome === null ? outcome(d) : null;
        return came === null ? d : settled(d, came, nowMs);
      });
    }
  }
  return { said, states, deliveries };
}
