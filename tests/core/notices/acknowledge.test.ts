// Answers: by digit, link and API; and those that are none. A forged or repeated "1" must not end an escalation.

import { describe, expect, it } from 'vitest';
import { type AnswerFrom, acknowledge, type Incoming, type OpenMessage } from '#core/notices/acknowledge.ts';
import type { Answer } from '#core/notices/answer.ts';
import type { Contact } from '#core/notices/contact.ts';
import type { Delivery } from '#core/notices/delivery.ts';
import { markAcknowledged } from '#core/notices/mark-acknowledged.ts';
import type { Message } from '#core/notices/message.ts';
import { nextDelivery } from '#core/notices/next-delivery.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { contactOf, noticeMessage, settled, transitionOf } from '../../builders/contacts.ts';
import { EIGHT_MS, gust, SITE, watched } from '../../builders/notices.ts';

const ANA = contactOf('ana');
const BEN = contactOf('ben', { step: 1 });
const ANA_TEXTS: AnswerFrom = { via: 'digit', channel: 'text', address: ANA.ways[0]?.to ?? '' };

/** What one contact is sent of a message, told at a minute. */
function toldTo(
  contact: Contact,
  message: Message,
  minute: number,
  change: Partial<Delivery> = {},
): Delivery {
  const nowMs = EIGHT_MS + minute * MINUTE_MS;
  const told = { contact, step: contact.step, asked: true, parts: [0] };
  const settings = { repeatAfterMs: [], mostPerContact: 9 };
  const made = nextDelivery({ message, told, deliveries: [], nowMs, settings });
  if (made === null) throw new Error('it is due');
  return { ...settled(made, 'sent'), ...change };
}

/** Who has Ana's number in another organisation. */
const EVA = { ...contactOf('eva'), ways: ANA.ways };
const contactsOf = (site: string): readonly Contact[] => (site.startsWith('other/') ? [EVA] : [ANA, BEN]);

const openOf = (message: Message, ...deliveries: readonly Delivery[]): OpenMessage => ({
  message,
  deliveries,
  answers: [],
});

const M1 = noticeMessage();
const TOLD = [openOf(M1, toldTo(ANA, M1, 0))];

function answer(
  minute: number,
  from: AnswerFrom = ANA_TEXTS,
  change: Partial<Incoming> = {},
  open = TOLD,
  seen = new Set<string>(),
  ended: readonly OpenMessage[] = [],
) {
  const receivedAtMs = EIGHT_MS + minute * MINUTE_MS;
  const incoming: Incoming = { id: 'i1', from, said: 'got-it', atMs: receivedAtMs, receivedAtMs, ...change };
  const result = acknowledge({ incoming, contactsOf, open, ended, seen });
  return 'why' in result ? result.why : result.answers.map((a) => `${a.contact} ${a.said} ${a.message}`);
}

describe('a digit', () => {
  it('answers the message that this person was sent at this address', () => {
    expect(answer(1)).toEqual(['ana got-it m1']);
    expect(answer(1, ANA_TEXTS, { said: 'cannot' })).toEqual(['ana cannot m1']);
  });

  it('from a number that nobody has, or of somebody who was not told, is none', () => {
    expect(answer(1, { ...ANA_TEXTS, address: '+15550199' })).toBe('unknown-sender');
    // The same address over another channel is another address.
    expect(answer(1, { ...ANA_TEXTS, channel: 'other' })).toBe('unknown-sender');
    expect(answer(1, { ...ANA_TEXTS, address: BEN.ways[0]?.to ?? '' })).toBe('never-told');
  });

  it('that came before is none', () => {
    expect(answer(1, ANA_TEXTS, {}, TOLD, new Set(['i1']))).toBe('replay');
    const answers = [
      {
        id: 'i1',
        message: 'm1',
        site: SITE,
        contact: 'ana',
        said: 'got-it',
        via: 'digit',
        atMs: 1,
        receivedAtMs: 1,
      } as const,
    ];
    expect(answer(1, ANA_TEXTS, {}, [{ ...openOf(M1, toldTo(ANA, M1, 0)), answers }])).toBe('replay');
  });

  it('sent before the text was, long ago, or in the future, is none', () => {
    expect(answer(-5)).toBe('never-told');
    expect(answer(10, ANA_TEXTS, { atMs: EIGHT_MS - 5 * MINUTE_MS })).toBe('never-told');
    expect(answer(40, ANA_TEXTS, { atMs: EIGHT_MS + 9 * MINUTE_MS })).toBe('too-old');
    expect(answer(1, ANA_TEXTS, { atMs: EIGHT_MS + 7 * MINUTE_MS })).toBe('ahead-of-time');
    // Nobody reads and answers within a second.
    expect(answer(1 / 60)).toBe('never-told');
  });

  it('is believed where its clock is off by less than a minute, or it has none', () => {
    expect(answer(0.5, ANA_TEXTS, { atMs: EIGHT_MS - 20_000 })).toEqual(['ana got-it m1']);
    expect(answer(1, ANA_TEXTS, { atMs: null })).toEqual(['ana got-it m1']);
  });

  it('after the message has ended is one to the last that this person was told, for half a day', () => {
    expect(answer(61)).toEqual(['ana got-it m1']);
    expect(answer(12 * 60 + 1)).toBe('never-told');
    const M2 = noticeMessage(undefined, { id: 'm2' });
    const both = [...TOLD, openOf(M2, toldTo(ANA, M2, 30))];
    expect(answer(99, ANA_TEXTS, { said: 'cannot' }, both)).toEqual(['ana cannot m2']);
  });

  it('is kept with what was told last though it has ended, and is nothing to what was told before it', () => {
    const M2 = noticeMessage(undefined, { id: 'm2' });
    const ended = [openOf(M2, toldTo(ANA, M2, 5))];
    for (const said of ['got-it', 'cannot'] as const) {
      expect(answer(9, ANA_TEXTS, { said }, TOLD, new Set(), ended)).toEqual([`ana ${said} m2`]);
    }
    // Told again since then, what is open is the last.
    const again = [openOf(M1, toldTo(ANA, M1, 0), toldTo(ANA, M1, 7, { repeat: 1 }))];
    expect(answer(9, ANA_TEXTS, {}, again, new Set(), ended)).toEqual(['ana got-it m1']);
    // After half a day a digit is none to what has ended.
    const long = noticeMessage(undefined, { validUntilMs: EIGHT_MS + 20 * 60 * MINUTE_MS });
    const open = [openOf(long, toldTo(ANA, long, 0))];
    expect(answer(12 * 60 + 6, ANA_TEXTS, {}, open, new Set(), ended)).toEqual(['ana got-it m1']);
  });

  it('from a number that two organisations know answers what either of them told last, and that alone', () => {
    const theirs = noticeMessage(undefined, { id: 'm2', site: 'other/north-block' });
    const last = [openOf(theirs, toldTo(EVA, theirs, 5))];
    expect(answer(9, ANA_TEXTS, {}, [...TOLD, ...last])).toEqual(['eva got-it m2']);
    expect(answer(3, ANA_TEXTS, {}, [...TOLD, ...last])).toEqual(['ana got-it m1']);
    expect(answer(9, ANA_TEXTS, {}, TOLD, new Set(), last)).toEqual(['eva got-it m2']);
  });

  it('to one that asks for none is none', () => {
    const news = noticeMessage(undefined, { needsAnswer: false });
    expect(answer(1, ANA_TEXTS, {}, [openOf(news, toldTo(ANA, news, 0))])).toBe('nothing-open');
  });

  it.each(['failed', 'expired', 'superseded'] as const)(
    'to a text that was not sent (%s) is none',
    (outcome) => {
      expect(answer(1, ANA_TEXTS, {}, [openOf(M1, toldTo(ANA, M1, 0, { outcome }))])).toBe('never-told');
    },
  );

  it('to a text that may have arrived, or of which the channel has not yet said so, is one', () => {
    expect(answer(1, ANA_TEXTS, {}, [openOf(M1, toldTo(ANA, M1, 0, { outcome: 'uncertain' }))])).toEqual([
      'ana got-it m1',
    ]);
    const onItsWay = toldTo(ANA, M1, 0, { outcome: null, settledAtMs: null });
    expect(answer(1, ANA_TEXTS, {}, [openOf(M1, onItsWay)])).toEqual(['ana got-it m1']);
    expect(answer(1, ANA_TEXTS, {}, [openOf(M1, { ...onItsWay, triedAtMs: null })])).toBe('never-told');
  });

  it('of somebody who was told for their knowledge alone is none', () => {
    expect(answer(1, ANA_TEXTS, {}, [openOf(M1, toldTo(ANA, M1, 0, { asked: false }))])).toBe('never-told');
  });

  it('answers all that this person was told of that site before, and nothing of another site', () => {
    const worse = noticeMessage([transitionOf({ number: 2, kind: 'worse' })], { id: 'm2' });
    const other = noticeMessage(undefined, { id: 'm3', site: 'fern-hollow/south-block' });
    const open = [
      openOf(M1, toldTo(ANA, M1, 0)),
      openOf(other, toldTo(ANA, other, 1)),
      openOf(worse, toldTo(ANA, worse, 3)),
    ];
    expect(answer(5, ANA_TEXTS, {}, open)).toEqual(['ana got-it m1', 'ana got-it m2']);
    // Said before the newer text was sent, it is an answer to those before it alone.
    expect(answer(2, ANA_TEXTS, {}, open)).toEqual(['ana got-it m3']);
    expect(answer(3.02, ANA_TEXTS, { atMs: null }, open)).toEqual(['ana got-it m3']);
  });
});

describe('a link', () => {
  const link: AnswerFrom = { via: 'link', message: 'm1', contact: 'ana' };

  it('answers its message for its contact, whatever became of the sending: who has the link has the text', () => {
    expect(answer(1, link)).toEqual(['ana got-it m1']);
    expect(answer(1, link, {}, [openOf(M1, toldTo(ANA, M1, 0, { outcome: 'failed' }))])).toEqual([
      'ana got-it m1',
    ]);
  });

  it('of another message, of somebody who was not told, or pressed again, is none', () => {
    expect(answer(1, { ...link, message: 'm2' })).toBe('never-told');
    expect(answer(1, { ...link, contact: 'ben' })).toBe('never-told');
    expect(answer(1, { ...link, contact: 'nobody' })).toBe('unknown-sender');
    expect(answer(1, link, {}, TOLD, new Set(['i1']))).toBe('replay');
  });
});

describe('the API', () => {
  it('answers the message that it names, as whoever asked', () => {
    expect(answer(1, { via: 'api', message: 'm1', by: 'board key' })).toEqual(['board key got-it m1']);
    expect(answer(1, { via: 'api', message: 'm9', by: 'board key' })).toBe('nothing-open');
    expect(answer(99, { via: 'api', message: 'm1', by: 'board key' })).toEqual(['board key got-it m1']);
  });
});

describe('an answer', () => {
  const answerOf = (said: 'got-it' | 'cannot', id = 'm1') =>
    ({
      id: 'a',
      message: id,
      site: SITE,
      contact: 'ana',
      said,
      via: 'digit',
      atMs: EIGHT_MS + 5,
      receivedAtMs: EIGHT_MS + 6,
    }) as const;

  function raised() {
    const w = watched();
    const transitions = w.step(0, [gust('true')]);
    return { w, message: noticeMessage(transitions) };
  }

  const threadOf = (message: Message, answers: readonly Answer[], parts: readonly number[] = [0]) => ({
    message,
    deliveries: [toldTo(ANA, message, 0, { parts })],
    answers,
  });

  it('acknowledges no part that was not told to whoever answered, unless a key answers and nobody was told anything', () => {
    const { w, message } = raised();
    const isKept = (thread: OpenMessage) =>
      markAcknowledged(w.notices, thread)[0]?.acknowledgedAtMs === EIGHT_MS + 5;
    const had = answerOf('got-it');
    const byKey = { ...had, contact: 'board', via: 'api' as const };
    expect(isKept(threadOf(message, [had], []))).toBe(false);
    expect(isKept(threadOf(message, [{ ...had, contact: 'ben' }]))).toBe(false);
    expect(isKept(threadOf(message, [byKey], []))).toBe(false);
    expect(isKept(threadOf(message, [byKey]))).toBe(true);
    expect(isKept({ message, deliveries: [], answers: [byKey] })).toBe(true);
  });

  it('is noted with the notice, which stands as it stood', () => {
    const { w, message } = raised();
    const [marked] = markAcknowledged(w.notices, threadOf(message, [answerOf('got-it')]));
    expect(marked).toMatchObject({ acknowledgedAtMs: EIGHT_MS + 5, acknowledgedBy: 'ana', phase: 'raised' });
    expect(w.notices[0]).toMatchObject({ acknowledgedAtMs: null });
  });

  it('of "cannot", or to another message, acknowledges nothing', () => {
    const { w, message } = raised();
    expect(markAcknowledged(w.notices, threadOf(message, [answerOf('cannot')]))).toEqual(w.notices);
    expect(markAcknowledged(w.notices, threadOf(message, [answerOf('got-it', 'm2')]))).toBe(w.notices);
  });

  it('of "cannot" after the "got it" of another leaves nobody who has it, until somebody has it again', () => {
    const { w, message } = raised();
    const had = answerOf('got-it');
    const cannot = { ...answerOf('cannot'), id: 'b', contact: 'ben', receivedAtMs: EIGHT_MS + 20 };
    const acknowledged = markAcknowledged(w.notices, threadOf(message, [had]));
    const reopened = markAcknowledged(acknowledged, threadOf(message, [had, cannot]));
    expect(reopened[0]).toMatchObject({ acknowledgedAtMs: null, acknowledgedBy: null, phase: 'raised' });
    const again = { ...had, id: 'c', atMs: EIGHT_MS + 30, receivedAtMs: EIGHT_MS + 30 };
    expect(markAcknowledged(reopened, threadOf(message, [had, cannot, again]))[0]?.acknowledgedAtMs).toBe(
      EIGHT_MS + 30,
    );
  });

  it('of "got it" that comes when the message has ended acknowledges nothing, and a "cannot" then takes back', () => {
    const { w, message } = raised();
    const lateMs = message.validUntilMs + 1;
    const had = answerOf('got-it');
    const late = { ...had, atMs: lateMs, receivedAtMs: lateMs };
    expect(markAcknowledged(w.notices, threadOf(message, [late]))[0]?.acknowledgedAtMs).toBeNull();
    const acknowledged = markAcknowledged(w.notices, threadOf(message, [had]));
    const cannot = { ...late, id: 'b', contact: 'ben', said: 'cannot' as const };
    expect(markAcknowledged(acknowledged, threadOf(message, [had, cannot]))[0]?.acknowledgedAtMs).toBeNull();
  });

  it('to what was told before it became worse does not acknowledge the worse', () => {
    const { w, message } = raised();
    w.step(1, [gust('true', 'stop')]);
    expect(
      markAcknowledged(w.notices, threadOf(message, [answerOf('got-it')]))[0]?.acknowledgedAtMs,
    ).toBeNull();
  });
});
