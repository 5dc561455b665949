// The last look before a text goes out.

import { describe, expect, it } from 'vitest';
import type { Silence } from '#core/notices/silence.ts';
import { stillToSend } from '#core/notices/still-to-send.ts';
import { officeMessage } from '#jobs/watch/office-message.ts';
import { noticeMessage, transitionOf } from '../../builders/contacts.ts';
import { EIGHT_MS, gust, SITE } from '../../builders/notices.ts';
import { answerOf, deliveryOf } from '../../builders/watch-records.ts';

const PARTS = [transitionOf(), transitionOf({ condition: gust('true', 'hold', { subject: 'windSpeed' }) })];
const MESSAGE = noticeMessage(PARTS);
const FIRST = deliveryOf('m1', { parts: [0, 1] });
const newest = (...numbers: readonly number[]) => ({
  newest: new Map(PARTS.map((t, i) => [t.notice, { episode: '1', number: numbers[i] ?? 1 }])),
  silences: [],
});

it('all of it, while nothing newer was told and it is not too late', () => {
  expect(stillToSend(FIRST, MESSAGE, [], newest(), EIGHT_MS)).toEqual({ parts: [0, 1] });
  expect(stillToSend(FIRST, MESSAGE, [], newest(), FIRST.validUntilMs)).toEqual({ parts: [0, 1] });
  expect(stillToSend(FIRST, MESSAGE, [], newest(), FIRST.validUntilMs + 1)).toMatchObject({
    outcome: 'expired',
  });
});

it('row 6: never an older word after a newer (alertmanager#4008)', () => {
  expect(stillToSend(FIRST, MESSAGE, [], newest(2, 1), EIGHT_MS)).toEqual({ parts: [1] });
  expect(stillToSend(FIRST, MESSAGE, [], newest(2, 2), EIGHT_MS)).toMatchObject({ outcome: 'superseded' });
  expect(stillToSend({ ...FIRST, parts: [0] }, MESSAGE, [], newest(2, 1), EIGHT_MS)).toMatchObject({
    outcome: 'superseded',
  });
});

it('nobody is asked again, or next, once it was answered; everybody of the first step is still told', () => {
  const answers = [answerOf('a', 'm1')];
  const send = (change: object, said = answers) =>
    stillToSend({ ...FIRST, ...change }, MESSAGE, said, newest(), EIGHT_MS);
  expect(send({})).toEqual({ parts: [0, 1] });
  expect(send({ repeat: 1 })).toMatchObject({ outcome: 'superseded', detail: 'answered' });
  expect(send({ step: 1 })).toMatchObject({ outcome: 'superseded', detail: 'answered' });
  expect(send({ step: 0, asked: false })).toEqual({ parts: [0, 1] });
  const takenBack = [...answers, answerOf('b', 'm1', { said: 'cannot', atMs: EIGHT_MS + 99_000 })];
  expect(send({ step: 1 }, takenBack)).toEqual({ parts: [0, 1] });
});

it('what has no parts is said as it is', () => {
  const plan = { ...noticeMessage([]), kind: 'drill' as const };
  expect(
    stillToSend({ ...FIRST, parts: [] }, plan, [], { newest: new Map(), silences: [] }, EIGHT_MS),
  ).toEqual({ parts: [] });
});

describe('what a silence that began since keeps back', () => {
  const silence: Silence = {
    ...{ id: 's', site: SITE, code: null, fromMs: EIGHT_MS, untilMs: EIGHT_MS + 150_000 },
    ...{ reason: 'on the radio', by: 'Ana', role: 'office', endedAtMs: null, endedBy: null },
  };
  const at = (afterMs: number, change: Partial<Silence> = {}) =>
    stillToSend(
      FIRST,
      MESSAGE,
      [],
      { ...newest(), silences: [{ ...silence, ...change }] },
      EIGHT_MS + afterMs,
    );

  it('waits for its end, and is looked at every minute until then', () => {
    expect(at(0)).toEqual({ heldUntilMs: EIGHT_MS + 60_000 });
    expect(at(120_000)).toEqual({ heldUntilMs: EIGHT_MS + 150_000 });
    expect(at(150_000)).toEqual({ parts: [0, 1] });
    expect(at(0, { endedAtMs: EIGHT_MS })).toEqual({ parts: [0, 1] });
    expect(at(0, { site: 'fern-hollow/other' })).toEqual({ parts: [0, 1] });
  });

  it('is no stop that was observed, where the crew made the silence', () => {
    expect(at(0, { role: 'crew' })).toEqual({ parts: [0] });
  });

  it("is the office's 'nobody answers' too, as far as all that still stands of it is silenced", () => {
    const office = officeMessage(
      { site: SITE, verdict: 'stop', of: 'm1' },
      { what: 'not-answered', contact: null, about: 'm1', detail: null },
      EIGHT_MS,
      (text) => text,
    );
    const toOffice = (change: Partial<Silence>, numbers: readonly number[] = [], about = MESSAGE) => {
      const audience = { ...newest(...numbers), silences: [{ ...silence, ...change }] };
      return stillToSend({ ...FIRST, parts: [] }, office, [], audience, EIGHT_MS, about);
    };
    const held = { heldUntilMs: EIGHT_MS + 60_000 };
    expect(toOffice({})).toEqual(held);
    expect(toOffice({ role: 'crew' })).toEqual({ parts: [] });
    expect(toOffice({ role: 'crew' }, [2, 1])).toEqual(held);
    expect(toOffice({}, [2, 2])).toEqual({ parts: [] });
    expect(toOffice({ endedAtMs: EIGHT_MS })).toEqual({ parts: [] });
    const drill = { ...noticeMessage([]), kind: 'drill' as const };
    expect(toOffice({}, [], drill)).toEqual({ parts: [] });
  });
});
