// Who is told when, and who next, played minute by minute against people and channels that answer or do not.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DeliveryOutcome } from '#core/notices/delivery.ts';
import { ESCALATION_SETTINGS, escalate } from '#core/notices/escalate.ts';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import { audienceOf, contactOf, noticeMessage, transitionOf } from '../../builders/contacts.ts';
import { EIGHT_MS, gust } from '../../builders/notices.ts';
import { play, UP_TO_AN_HOUR } from '../../builders/play-escalation.ts';

const ANA = contactOf('ana');
const BEN = contactOf('ben', { step: 1 });
const OFFICE = contactOf('office', { role: 'office', step: 2 });

describe('without an answer', () => {
  it('the first is told at once and again after 5, 10 and 15 minutes, the next after 10, and the office after 20', () => {
    const { said, states } = play({ contacts: [OFFICE, BEN, ANA] });
    expect(said).toEqual([
      '0 ana text #0',
      '5 ana text #1',
      '10 ana text #2',
      '10 ben text #0',
      '15 ana text #3',
      '15 ben text #1',
      '20 ben text #2',
      '20 office text #0',
      '25 ben text #3',
      '25 office text #1',
      '30 office text #2',
      '35 office text #3',
    ]);
    expect([states.get(29), states.get(30), states.get(60), states.get(61)]).toEqual([
      'going-on',
      'unanswered',
      'unanswered',
      'expired',
    ]);
  });

  it('row 8: there is an end to it, whatever fails (alertmanager#2286)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom<DeliveryOutcome>('sent', 'failed', 'uncertain', 'expired'), {
          minLength: 1,
        }),
        fc.integer({ min: 1, max: 30 }),
        (outcomes, people) => {
          let n = 0;
          const contacts = Array.from({ length: people }, (_, i) => contactOf(`p${i}`, { step: i % 4 }));
          const { deliveries } = play({
            contacts,
            message: noticeMessage(undefined, { validUntilMs: EIGHT_MS + 1e9 }),
            outcome: () => outcomes[n++ % outcomes.length] ?? 'sent',
          });
          expect(deliveries.length).toBeLessThanOrEqual(ESCALATION_SETTINGS.mostPerMessage);
          for (const own of Map.groupBy(deliveries, (d) => d.contact).values()) {
            expect(own.length).toBeLessThanOrEqual(ESCALATION_SETTINGS.mostPerContact);
          }
          // Nobody is sent the same thing twice.
          const keys = deliveries.map((d) => [d.contact, d.step, d.way, d.repeat].join());
          expect(new Set(keys).size).toBe(keys.length);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('one whose text is still on its way is sent no other', () => {
    const { said } = play({ contacts: [ANA], outcome: () => null });
    expect(said).toEqual(['0 ana text #0']);
  });

  it('repeats that were missed while nobody looked are made up for by one', () => {
    const { said } = play({ contacts: [ANA, BEN], minutes: [0, 40, 41, 59] });
    expect(said).toEqual(['0 ana text #0', '40 ana text #3', '40 ben text #0', '59 ben text #3']);
  });

  it('a clock that was set back delays nobody: what was told in its future was told long ago', () => {
    const { said } = play({ contacts: [ANA, BEN], minutes: [0, -120, -119] });
    expect(said).toEqual(['0 ana text #0', '-120 ana text #3', '-120 ben text #0']);
  });
});

describe('where a way fails', () => {
  it('the next one is used at once, and repeats go by the one that works', () => {
    const { said } = play({ contacts: [ANA], outcome: (d) => (d.channel === 'text' ? 'failed' : 'sent') });
    expect(said).toEqual([
      '0 ana text #0',
      '0 ana mail #0',
      '5 ana mail #1',
      '10 ana mail #2',
      '15 ana mail #3',
    ]);
  });

  it('row 9: and all of a step, the next step is asked at once (alertmanager#3727)', () => {
    const { said } = play({
      contacts: [ANA, BEN],
      outcome: (d) => (d.contact === 'ana' ? 'failed' : 'sent'),
    });
    expect(said.slice(0, 3)).toEqual(['0 ana text #0', '0 ana mail #0', '0 ben text #0']);
    // By the time of each repeat it may have been mended.
    expect(said.filter((line) => line.includes('ana')).map((line) => line.split(' ')[0])).toEqual([
      '0',
      '0',
      '5',
      '5',
      '10',
      '10',
      '15',
      '15',
    ]);
  });

  it('and nobody is left, it says that nobody has answered', () => {
    const { states } = play({ contacts: [ANA, BEN], outcome: () => 'failed', minutes: [0] });
    expect(states.get(0)).toBe('unanswered');
    expect(play({ contacts: [], minutes: [0] }).states.get(0)).toBe('unanswered');
  });

  it('row 11: what is uncertain goes by the next way too, and is no failure (alertmanager#2657)', () => {
    const { said } = play({ contacts: [ANA, BEN], outcome: () => 'uncertain', minutes: [0, 4] });
    expect(said).toEqual(['0 ana text #0', '0 ana mail #0']);
  });

  it('somebody who opted out counts as failed at once: sending to them is not even tried', () => {
    const { said, deliveries } = play({
      contacts: [contactOf('ana', { optedOutAtMs: 1 }), BEN],
      minutes: [0, 5],
    });
    expect(said).toEqual(['0 ana opted-out #0', '0 ben text #0', '5 ben text #1']);
    expect(deliveries[0]).toMatchObject({ outcome: 'failed', detail: 'opted-out', triedAtMs: null });
  });

  it('somebody without any way counts as failed too', () => {
    const { said } = play({ contacts: [contactOf('ana', { ways: [] }), BEN], minutes: [0] });
    expect(said).toEqual(['0 ana no-way #0', '0 ben text #0']);
  });
});

describe('an answer', () => {
  it('ends it, from whoever was asked', () => {
    const { said, states } = play({
      contacts: [ANA, BEN],
      answers: [{ minute: 12, contact: 'ben', said: 'got-it' }],
    });
    expect(said).toEqual(['0 ana text #0', '5 ana text #1', '10 ana text #2', '10 ben text #0']);
    expect(states.get(12)).toBe('acknowledged');
  });

  it('of "cannot" asks the next step at once, and leaves the one who cannot alone', () => {
    const { said } = play({
      contacts: [ANA, BEN],
      answers: [{ minute: 2, contact: 'ana', said: 'cannot' }],
      minutes: UP_TO_AN_HOUR.slice(0, 10),
    });
    expect(said).toEqual(['0 ana text #0', '2 ben text #0', '7 ben text #1']);
  });

  it('that is taken back counts no more: who had it and then cannot has it not', () => {
    const { said, states } = play({
      contacts: [ANA, BEN],
      answers: [
        { minute: 1, contact: 'ana', said: 'got-it' },
        { minute: 8, contact: 'ana', said: 'cannot' },
      ],
    });
    expect([states.get(7), states.get(8)]).toEqual(['acknowledged', 'going-on']);
    expect(said.slice(0, 2)).toEqual(['0 ana text #0', '8 ben text #0']);
  });

  it('of "cannot" after the "got it" of another asks the next at once, until somebody has it after it', () => {
    const { said, states } = play({
      contacts: [ANA, contactOf('cy'), BEN],
      answers: [
        { minute: 1, contact: 'ana', said: 'got-it' },
        { minute: 2, contact: 'cy', said: 'cannot' },
        { minute: 4, contact: 'ben', said: 'got-it' },
      ],
    });
    expect([states.get(1), states.get(3), states.get(4)]).toEqual([
      'acknowledged',
      'going-on',
      'acknowledged',
    ]);
    expect(said.filter((line) => line.includes('ben'))).toEqual(['2 ben text #0']);
  });

  it('of "cannot" by a name that nobody is asked by asks the next at once, and no more than the next', () => {
    const outside = (...minutes: readonly number[]) =>
      play({
        contacts: [ANA, BEN, OFFICE],
        answers: minutes.map((minute) => ({ minute, contact: 'board key', said: 'cannot' as const })),
        minutes: UP_TO_AN_HOUR.slice(0, 10),
      }).said.filter((line) => line.endsWith('#0'));
    expect(outside(2)).toEqual(['0 ana text #0', '2 ben text #0']);
    expect(outside(0)).toEqual(['0 ana text #0', '0 ben text #0']);
    expect(outside(2, 5)).toEqual(['0 ana text #0', '2 ben text #0', '5 office text #0']);
    const { states } = play({ contacts: [ANA], answers: [{ minute: 2, contact: 'x', said: 'cannot' }] });
    expect([states.get(1), states.get(2)]).toEqual(['going-on', 'unanswered']);
  });
});

describe('a message that is no longer the newest word', () => {
  it('row 6: is neither told nor repeated after something newer (alertmanager#4008)', () => {
    const newest = new Map([[transitionOf().notice, { episode: '1', number: 2 }]]);
    const { said, states } = play({ contacts: [ANA, BEN], audience: { newest }, minutes: [0, 5, 10] });
    expect(said).toEqual([]);
    expect(states.get(0)).toBe('superseded');
  });

  it('goes on with those of its parts that still are', () => {
    const parts = [
      transitionOf(),
      transitionOf({ condition: gust('true', 'hold', { subject: 'windSpeed' }) }),
    ];
    const newest = new Map([[String(parts[0]?.notice), { episode: '1', number: 2 }]]);
    const { deliveries } = play({
      contacts: [ANA],
      message: noticeMessage(parts),
      audience: { newest },
      minutes: [0],
    });
    expect(deliveries.map((d) => d.parts)).toEqual([[1]]);
  });
});

describe('what needs no answer', () => {
  const news = noticeMessage(undefined, { needsAnswer: false });

  it('is told once to the whole crew, by the next way where one fails, and not to the office', () => {
    const { said } = play({
      contacts: [ANA, BEN, OFFICE],
      message: news,
      outcome: (d) => (d.contact === 'ben' && d.way === 0 ? 'failed' : 'sent'),
    });
    expect(said).toEqual(['0 ana text #0', '0 ben text #0', '0 ben mail #0']);
  });

  it('waits for who is not to be woken, and for nobody else', () => {
    const waits = (quiet: { from: string; to: string } | null, minute: number) =>
      escalate({
        message: { ...news, validUntilMs: EIGHT_MS + DAY_MS },
        deliveries: [],
        answers: [],
        audience: audienceOf([{ ...ANA, quiet }, BEN], { burnOpen: false }),
        nowMs: EIGHT_MS + minute * MINUTE_MS,
      });
    const night = { from: '07:00', to: '09:00' };
    expect(waits(night, 0)).toMatchObject({ waits: true, due: [{ contact: 'ben' }] });
    expect(waits(night, 60)).toMatchObject({ waits: false, due: [{ contact: 'ana' }, { contact: 'ben' }] });
    expect(waits(null, 0).waits).toBe(false);
  });

  it('is not told by two ways because one is uncertain', () => {
    expect(play({ contacts: [ANA], message: news, outcome: () => 'uncertain' }).said).toHaveLength(1);
  });
});

it('dispatch is told of a stop once, beside the crew, and is asked only where it has a step of its own', () => {
  const dispatch = contactOf('desk', { role: 'dispatch' });
  expect(play({ contacts: [ANA, dispatch] }).said.filter((line) => line.includes('desk'))).toEqual([
    '0 desk text #0',
  ]);
  const last = contactOf('desk', { role: 'dispatch', step: 1 });
  const { said, deliveries } = play({ contacts: [ANA, last], minutes: [0, 10] });
  expect(said).toEqual(['0 desk text #0', '0 ana text #0', '10 ana text #2', '10 desk text #0']);
  expect(deliveries.map((d) => d.asked)).toEqual([false, true, true, true]);
});

it('a stop is sent before a hold, and a hold before news', () => {
  const urgency = (verdict: 'stop' | 'hold' | 'go') =>
    play({ contacts: [ANA], message: noticeMessage(undefined, { verdict }), minutes: [0] }).deliveries[0]
      ?.urgency;
  expect([urgency('stop'), urgency('hold'), urgency('go')]).toEqual([0, 1, 2]);
});
