// A channel that asks for a pause (Retry-After, RFC 9110, section 10.2.3): what is urgent goes by the next way meanwhile.

import { describe, expect, it } from 'vitest';
import type { Delivery } from '#core/notices/delivery.ts';
import { escalate } from '#core/notices/escalate.ts';
import { wentAnotherWay } from '#core/notices/put-off.ts';
import { audienceOf, contactOf, noticeMessage, settled, transitionOf } from '../../builders/contacts.ts';
import { EIGHT_MS, gust } from '../../builders/notices.ts';

const ANA = contactOf('ana');
const BEN = contactOf('ben', { step: 1 });
const SECOND_MS = 1000;
const FIVE_MIN_MS = 300_000;

const STOP = noticeMessage();
const NEWS = noticeMessage([transitionOf({ condition: gust('true', 'go') })]);

const dueOf = (deliveries: readonly Delivery[], afterMs: number, message = STOP): readonly Delivery[] =>
  escalate({
    message,
    deliveries,
    answers: [],
    audience: audienceOf([ANA, BEN]),
    nowMs: EIGHT_MS + afterMs,
  }).due;

const said = (due: readonly Delivery[]): string[] => due.map((d) => `${d.contact} ${d.channel} #${d.repeat}`);

/** The first delivery, tried once and put off for so long. */
const putOffFor = (pauseMs: number, message = STOP): Delivery => {
  const [first] = dueOf([], 0, message);
  if (first === undefined) throw new Error('somebody is told');
  return { ...first, triedAtMs: EIGHT_MS, notBeforeMs: EIGHT_MS + pauseMs };
};

describe('a way that is put off', () => {
  it('for long gives a stop to the next way at once, and nobody else is asked for it', () => {
    expect(said(dueOf([putOffFor(FIVE_MIN_MS)], 0))).toEqual(['ana mail #0']);
  });

  it('for a moment is waited for, and so is one with news, however long', () => {
    expect(dueOf([putOffFor(15 * SECOND_MS)], 0)).toEqual([]);
    expect(dueOf([putOffFor(FIVE_MIN_MS, NEWS)], 0, NEWS)).toEqual([]);
  });

  it('is not asked again where another took it, and its pause is no clock that was set back', () => {
    const off = putOffFor(FIVE_MIN_MS);
    const mail = dueOf([off], 0).map((d) => settled(d, 'sent'));
    expect(dueOf([off, ...mail], 60 * SECOND_MS)).toEqual([]);
    const again = { ...off, notBeforeMs: EIGHT_MS + 2 * FIVE_MIN_MS };
    expect(said(dueOf([again, ...mail], FIVE_MIN_MS))).toEqual(['ana mail #1']);
  });

  it('is waited for where it is the only one', () => {
    const only = { ...putOffFor(FIVE_MIN_MS) };
    const audience = audienceOf([{ ...ANA, ways: ANA.ways.slice(0, 1) }]);
    const due = (nowMs: number) =>
      escalate({ message: STOP, deliveries: [only], answers: [], audience, nowMs }).due;
    expect(due(EIGHT_MS)).toEqual([]);
    // The repeat would go the same way, at which it still waits.
    expect(due(EIGHT_MS + FIVE_MIN_MS)).toEqual([]);
  });

  it('by a silence, untried, opens no other way: it goes out when the silence is over', () => {
    const held = { ...putOffFor(60 * SECOND_MS), triedAtMs: null };
    expect(dueOf([held], 0)).toEqual([]);
    expect(dueOf([held], 30 * SECOND_MS)).toEqual([]);
  });

  it('is not tried again once another has told that person', () => {
    const off = putOffFor(FIVE_MIN_MS);
    const [mail] = dueOf([off], 0);
    if (mail === undefined) throw new Error('there is another way');
    expect(wentAnotherWay(off, [off, settled(mail, 'sent')])).toBe(true);
    expect(wentAnotherWay(off, [off, settled(mail, 'failed')])).toBe(false);
    expect(wentAnotherWay(off, [off, settled(mail, 'uncertain')])).toBe(false);
    expect(wentAnotherWay(off, [off, { ...settled(mail, 'sent'), contact: 'ben' }])).toBe(false);
    expect(wentAnotherWay({ ...off, notBeforeMs: null }, [off, settled(mail, 'sent')])).toBe(false);
  });
});
