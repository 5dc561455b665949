// People who are told, and messages for them. All invented.

import type { Contact } from '#core/notices/contact.ts';
import type { Delivery } from '#core/notices/delivery.ts';
import type { Message } from '#core/notices/message.ts';
import type { Transition } from '#core/notices/notice.ts';
import type { Audience } from '#core/notices/who-is-told.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { EIGHT_MS, gust, SITE } from './notices.ts';

export const ZONE = 'America/Chicago';

export const contactOf = (id: string, change: Partial<Contact> = {}): Contact => ({
  id,
  name: `Person ${id}`,
  role: 'crew',
  sites: null,
  language: 'en',
  units: 'us',
  ways: [
    { channel: 'text', to: `+1555010${id.length}${id.charCodeAt(0)}` },
    { channel: 'mail', to: `${id}@example.org` },
  ],
  quiet: null,
  consent: null,
  optedOutAtMs: null,
  step: 0,
  ...change,
});

export const transitionOf = (change: Partial<Transition> = {}): Transition => {
  const condition = change.condition ?? gust('true', 'stop');
  return {
    notice: `${SITE} ${condition.code} ${condition.subject}`,
    site: SITE,
    episode: '1',
    number: 1,
    kind: 'raised',
    atMs: EIGHT_MS,
    verdict: condition.verdict,
    was: null,
    raisedAtMs: EIGHT_MS,
    inhibited: false,
    condition,
    ...change,
  };
};

export const noticeMessage = (
  transitions: readonly Transition[] = [transitionOf()],
  change: Partial<Omit<Message, 'kind'>> = {},
): Message => ({
  id: 'm1',
  kind: 'notice',
  site: SITE,
  atMs: EIGHT_MS,
  verdict: transitions[0]?.verdict ?? 'go',
  transitions,
  validUntilMs: EIGHT_MS + 60 * MINUTE_MS,
  needsAnswer: true,
  ...change,
});

export const audienceOf = (contacts: readonly Contact[], change: Partial<Audience> = {}): Audience => ({
  contacts,
  silences: [],
  timeZone: ZONE,
  burnOpen: true,
  heard: new Set(),
  newest: new Map(),
  ...change,
});

export const settled = (
  delivery: Delivery,
  outcome: NonNullable<Delivery['outcome']>,
  atMs = delivery.dueAtMs,
): Delivery => ({ ...delivery, outcome, triedAtMs: delivery.triedAtMs ?? atMs, settledAtMs: atMs });
