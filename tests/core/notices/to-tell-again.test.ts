// What stands is told again where the message that told it died: failed, unanswered, slept through, silenced. And nothing
// else is: who has it and has answered is left alone.

import { describe, expect, it } from 'vitest';
import type { OpenMessage } from '#core/notices/acknowledge.ts';
import type { Answer, Said } from '#core/notices/answer.ts';
import type { DeliveryOutcome } from '#core/notices/delivery.ts';
import { escalate } from '#core/notices/escalate.ts';
import { markAcknowledged } from '#core/notices/mark-acknowledged.ts';
import { mergeMessage } from '#core/notices/merge-message.ts';
import type { Notice } from '#core/notices/notice.ts';
import type { Silence } from '#core/notices/silence.ts';
import { stepNotices } from '#core/notices/step-notices.ts';
import { toTellAgain } from '#core/notices/to-tell-again.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Condition } from '#core/watch/condition.ts';
import { audienceOf, contactOf, settled } from '../../builders/contacts.ts';
import { EIGHT_MS, gust, SITE, shift } from '../../builders/notices.ts';

const ANA = contactOf('ana');
const BEN = contactOf('ben', { step: 1 });
const OFFICE = contactOf('office', { role: 'office', step: 2 });
const STOP = [gust('true', 'stop')];
const HOLD = [gust('true', 'hold')];

interface Shift {
  readonly contacts?: readonly (typeof ANA)[];
  readonly conditions?: (minute: number) => readonly Condition[];
  readonly outcome?: (contact: string, minute: number) => DeliveryOutcome;
  readonly answers?: Readonly<Record<number, readonly [contact: string, said: Said]>>;
  readonly silences?: readonly Silence[];
  readonly burnOpen?: (minute: number) => boolean;
  readonly minutes?: readonly number[];
  /** What is due is sent before the site is looked at. */
  readonly sendsFirst?: boolean;
}

const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** A site looked at minute by minute, its messages escalated and sent at once; gives `minute kind code` and who was sent it. */
function play({
  contacts = [ANA, BEN, OFFICE],
  conditions = () => STOP,
  outcome = () => 'sent',
  answers = {},
  silences = [],
  burnOpen = () => true,
  minutes = range(0, 180),
  sendsFirst = false,
}: Shift = {}) {
  let notices: readonly Notice[] = [];
  let messages: OpenMessage[] = [];
  const made: string[] = [];
  const sent: string[] = [];
  for (const minute of minutes) {
    const nowMs = EIGHT_MS + minute * MINUTE_MS;
    const newest = () => new Map(notices.map(({ key, episode, number }) => [key, { episode, number }]));
    const audience = () => audienceOf(contacts, { silences, burnOpen: burnOpen(minute), newest: newest() });
    const send = () => {
      messages = messages.map((one) => {
        let { deliveries } = one;
        for (let round = 0; round < 9; round += 1) {
          const { due } = escalate({ ...one, deliveries, audience: audience(), nowMs });
          if (due.length === 0) break;
          const done = due.map((d) => settled(d, outcome(d.contact, minute), nowMs));
          sent.push(...done.filter((d) => d.outcome === 'sent').map((d) => `${minute} ${d.contact}`));
          deliveries = [...deliveries, ...done];
        }
        return { ...one, deliveries };
      });
    };
    if (sendsFirst) send();
    const said = answers[minute];
    const asked = messages.at(-1);
    if (said && asked) {
      const answer: Answer = {
        ...{ id: `a${minute}`, message: asked.message.id, site: SITE, contact: said[0], said: said[1] },
        ...{ via: 'digit', atMs: nowMs, receivedAtMs: nowMs },
      };
      const answered = { ...asked, answers: [...asked.answers, answer] };
      notices = markAcknowledged(notices, answered);
      messages = messages.with(-1, answered);
    }
    const stepped = stepNotices({
      site: SITE,
      notices: JSON.parse(JSON.stringify(notices)),
      conditions: conditions(minute),
      unlisted: () => 'false',
      burnOpen: burnOpen(minute),
      again: toTellAgain({ notices, messages, audience: audience(), nowMs }),
      nowMs,
    });
    notices = stepped.notices;
    const merged = { site: SITE, burnOpen: burnOpen(minute), nowMs, hash: (text: string) => text };
    const message = mergeMessage({ ...merged, ...stepped });
    if (message) {
      messages.push({ message, deliveries: [], answers: [] });
      const told = message.transitions.map((t) => `${t.kind} ${t.condition.code}`);
      made.push(`${minute} ${told.join(', ')}`);
    }
    send();
  }
  const to = (contact: string) =>
    sent.filter((line) => line.endsWith(` ${contact}`)).map((line) => Number(line.split(' ')[0]));
  return { made, sent, to, notices };
}

const silence = (fromMin: number, untilMin: number): Silence => ({
  ...{ id: 's', site: SITE, code: null, reason: 'drill', by: 'Office', role: 'office' },
  ...{ fromMs: EIGHT_MS + fromMin * MINUTE_MS, untilMs: EIGHT_MS + untilMin * MINUTE_MS },
  ...{ endedAtMs: null, endedBy: null },
});

describe('a stop that stands', () => {
  it('and was silenced for longer than it waits to be told again is told once when the silence is over', () => {
    const long = [{ ...gust('true', 'stop'), validUntilMs: EIGHT_MS + 12 * 60 * MINUTE_MS }];
    const shown = { conditions: () => long, silences: [silence(0, 90)], minutes: range(0, 94) };
    for (const sendsFirst of [false, true]) expect(play({ ...shown, sendsFirst }).to('ana')).toEqual([90]);
  });

  it('while all ways fail is tried again and again, and arrives within minutes of their being mended', () => {
    const { made, to } = play({ outcome: (_, minute) => (minute < 70 ? 'failed' : 'sent') });
    expect(made.slice(0, 3)).toEqual([
      '0 raised observed-beyond-limit',
      '30 still observed-beyond-limit',
      '60 still observed-beyond-limit',
    ]);
    expect(Math.min(...to('ana'))).toBeLessThanOrEqual(75);
  });

  it('that nobody answers is told once an hour more, and no oftener', () => {
    const { made } = play();
    expect(made.map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual([
      '0 raised',
      '60 still',
      '120 still',
      '180 still',
    ]);
  });

  it('that was answered is told no more, whoever of those who were asked answered', () => {
    for (const who of ['ana', 'ben', 'office']) {
      expect(play({ answers: { 25: [who, 'got-it'] } }).made).toHaveLength(1);
    }
  });

  it('is not told again when it is over, nor when no pit burns', () => {
    const over = play({ conditions: (minute) => [gust(minute < 50 ? 'true' : 'false', 'stop')] });
    expect(over.made).toEqual(['0 raised observed-beyond-limit', '60 over observed-beyond-limit']);
    expect(play({ burnOpen: (minute) => minute < 50 }).made).toHaveLength(1);
  });

  it('is told after a host that was down for hours, and after a clock that leapt', () => {
    const { made, to } = play({
      outcome: (_, minute) => (minute === 0 ? 'expired' : 'sent'),
      minutes: [0, 200, 201],
    });
    expect(made.slice(1)).toEqual(['200 still observed-beyond-limit']);
    expect(to('ana')).toEqual([200]);
  });

  it('is told with whatever else waits for an answer, as one text', () => {
    const conditions = (minute: number) => [
      ...STOP,
      ...(minute >= 40 ? [shift('true', 'stop', { holdsForMs: 0 })] : []),
    ];
    expect(play({ conditions, minutes: range(0, 99) }).made).toEqual([
      '0 raised observed-beyond-limit',
      '40 raised wind-shifted',
      '60 still observed-beyond-limit, still wind-shifted',
    ]);
  });
});

describe('a hold that stands', () => {
  const conditions = () => HOLD;

  it('and was delivered is told no more, answered or not', () => {
    expect(play({ conditions }).made).toHaveLength(1);
  });

  it('and reached nobody is told again', () => {
    const { made, to } = play({ conditions, outcome: (_, minute) => (minute < 70 ? 'failed' : 'sent') });
    expect(made.length).toBeGreaterThan(1);
    expect(Math.min(...to('ana'))).toBeLessThanOrEqual(75);
  });

  it('is kept from those who sleep, and told when their quiet hours are over, though the office has it', () => {
    // Eight at the site is minute 0; nine is long after the message is of no more use.
    const contacts = [ANA, BEN].map((c) => ({ ...c, quiet: { from: '22:00', to: '10:00' } }));
    const asleep = { conditions, contacts: [...contacts, OFFICE] };
    const { to } = play({ ...asleep, answers: { 3: ['office', 'got-it'] } });
    expect([to('office')[0], to('ana')[0]]).toEqual([0, 120]);
    // Nobody to be told until then: nothing is made that nobody hears.
    const alone = play({ ...asleep, contacts });
    expect(alone.made).toEqual(['0 raised observed-beyond-limit', '120 still observed-beyond-limit']);
  });
});

it('what a silence kept back is told when it ends, and not before', () => {
  for (const conditions of [() => STOP, () => HOLD]) {
    const { made, to } = play({ conditions, silences: [silence(-5, 150)], minutes: range(0, 179) });
    expect(made).toEqual(['0 raised observed-beyond-limit', '150 still observed-beyond-limit']);
    expect(to('ana')[0]).toBe(150);
  }
});

describe('a part of a message that a silence kept back', () => {
  const conditions = () => [...STOP, shift('true', 'stop', { holdsForMs: 0 })];
  const silences = [{ ...silence(-5, 30), code: 'observed-beyond-limit' as const }];
  const played = (until: number, answers: Shift['answers'] = {}) =>
    play({ conditions, silences, answers, minutes: range(0, until) });
  const acknowledged = ({ notices }: ReturnType<typeof play>) =>
    notices.filter((n) => n.acknowledgedAtMs !== null).map((n) => n.condition.code);

  it('is not acknowledged by who answered the rest, and is told when the silence is over', () => {
    const rest = played(29, { 2: ['ana', 'got-it'] });
    expect(rest.made).toHaveLength(1);
    expect(acknowledged(rest)).toEqual(['wind-shifted']);
    const { made, to } = played(40, { 2: ['ana', 'got-it'] });
    expect(made.slice(1)).toEqual(['30 still observed-beyond-limit']);
    expect(to('ana').slice(0, 2)).toEqual([0, 30]);
  });

  it('is acknowledged by who answers when it was told', () => {
    const answered = played(100, { 2: ['ana', 'got-it'], 33: ['ana', 'got-it'] });
    expect(acknowledged(answered).toSorted()).toEqual(['observed-beyond-limit', 'wind-shifted']);
    expect(answered.made).toHaveLength(2);
  });

  it('and that nobody answers is told with the rest when the silence is over, not an hour later', () => {
    expect(played(40).made.slice(1)).toEqual(['30 still observed-beyond-limit, still wind-shifted']);
  });
});

it('a hold beside a stop that stands is not told again, and neither is it a reason to tell the stop', () => {
  const conditions = (minute: number) => [
    shift('true', 'hold', { holdsForMs: 0 }),
    ...(minute >= 20 ? STOP : []),
  ];
  const { made } = play({
    conditions,
    outcome: (_, minute) => (minute < 20 ? 'failed' : 'sent'),
    answers: { 22: ['ana', 'got-it'] },
    minutes: range(0, 120),
  });
  expect(made).toEqual(['0 raised wind-shifted', '20 raised observed-beyond-limit']);
});
