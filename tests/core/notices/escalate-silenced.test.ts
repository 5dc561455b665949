// A silence beside an escalation: what nobody may be told, nobody has failed to answer.

import { describe, expect, it } from 'vitest';
import { escalate } from '#core/notices/escalate.ts';
import type { Silence } from '#core/notices/silence.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { audienceOf, contactOf, noticeMessage } from '../../builders/contacts.ts';
import { EIGHT_MS, SITE } from '../../builders/notices.ts';

const ANA = contactOf('ana');
const BEN = contactOf('ben', { step: 1 });
const OFFICE = contactOf('office', { role: 'office', step: 2 });

describe('a silence', () => {
  const message = noticeMessage();
  const silenceOf = (change: Partial<Silence> = {}): Silence => ({
    ...{ id: 's', site: SITE, code: null, fromMs: EIGHT_MS, untilMs: EIGHT_MS + 20 * MINUTE_MS },
    ...{ reason: 'on the radio', by: 'Ana', role: 'office', endedAtMs: null, endedBy: null },
    ...change,
  });
  const stateAt = (minute: number, silences: readonly Silence[]) =>
    escalate({
      ...{ message, deliveries: [], answers: [], nowMs: EIGHT_MS + minute * MINUTE_MS },
      audience: audienceOf([ANA, BEN, OFFICE], { silences }),
    });

  it('of all that a message tells is no want of an answer, and it is told when that is over', () => {
    expect(stateAt(5, [silenceOf()])).toEqual({ state: 'going-on', due: [], waits: true });
    expect(stateAt(20, [silenceOf()]).due.map(({ contact }) => contact)).toEqual(['ana']);
  });

  it('that may not silence a stop that was observed keeps nobody from being asked', () => {
    expect(stateAt(5, [silenceOf({ role: 'crew' })]).due.map(({ contact }) => contact)).toEqual(['ana']);
  });

  it('has nothing to do with there being nobody at all', () => {
    const audience = audienceOf([], { silences: [silenceOf()] });
    const { state } = escalate({ message, deliveries: [], answers: [], audience, nowMs: EIGHT_MS });
    expect(state).toBe('unanswered');
  });
});
