import { describe, expect, it } from 'vitest';
import { briefingOf } from '#core/notices/briefing-of.ts';
import type { Message } from '#core/notices/message.ts';
import { makeCondition } from '#core/watch/make-condition.ts';
import { noticeMessage, transitionOf } from '../../builders/contacts.ts';
import { EIGHT_MS, SITE } from '../../builders/notices.ts';
import { answerOf, burnOf, deliveryOf } from '../../builders/watch-records.ts';

const MEASURED_MS = EIGHT_MS + 60_000;
const wind = (
  code: 'wind-shifted' | 'wind-drifted' | 'smoke-turned-to-place' | 'thunder-near',
  fromDeg: number | null,
) => ({
  ...transitionOf(),
  condition: makeCondition(code, {
    truth: 'true',
    verdict: 'hold',
    basis: 'observed',
    asOfMs: MEASURED_MS,
    validUntilMs: MEASURED_MS + 1,
    figures: { windFromDeg: fromDeg },
  }),
});
const message = (...transitions: Message['transitions'][number][]): Message =>
  noticeMessage(transitions, { id: 'm1', site: SITE });
const toldOf = (one: Message, parts = [0, 1]) => ({
  message: one,
  deliveries: [deliveryOf('m1', { parts, outcome: 'sent' as const, triedAtMs: EIGHT_MS })],
});
const BURN = burnOf('b1', { openedAtMs: EIGHT_MS });
const answer = answerOf('a1', 'm1');

describe('a wind that was acknowledged', () => {
  it.each(['wind-shifted', 'wind-drifted', 'smoke-turned-to-place'] as const)(
    'as told by %s is what the crew goes by',
    (code) => {
      expect(
        briefingOf(toldOf(message(wind('thunder-near', null), wind(code, 290))), answer, 'crew', BURN),
      ).toEqual({
        id: 'a1',
        burn: 'b1',
        fromDeg: 290,
        observedAtMs: MEASURED_MS,
        by: 'ana',
        atMs: answer.atMs,
        message: 'm1',
      });
    },
  );

  it.each([
    ['cannot', message(wind('wind-shifted', 290)), { ...answer, said: 'cannot' as const }, 'crew' as const],
    ['the office', message(wind('wind-shifted', 290)), answer, 'office' as const],
    ['nobody known', message(wind('wind-shifted', 290)), answer, null],
    [
      'an answer to another message',
      message(wind('wind-shifted', 290)),
      answerOf('a1', 'm2'),
      'crew' as const,
    ],
    ['a message without a direction', message(wind('wind-shifted', null)), answer, 'crew' as const],
    ['a message of something else', message(wind('thunder-near', 290)), answer, 'crew' as const],
    ['what is over', message({ ...wind('wind-shifted', 290), kind: 'over' }), answer, 'crew' as const],
  ])('is none by %s', (_, told, said, role) => {
    expect(briefingOf(toldOf(told), said, role, BURN)).toBeNull();
  });

  it('is none where a silence kept it from whoever answered', () => {
    const told = message(wind('thunder-near', null), wind('wind-shifted', 290));
    expect(briefingOf(toldOf(told, [0]), answer, 'crew', BURN)).toBeNull();
  });

  it('of a fire before is none of this one', () => {
    const later = burnOf('b2', { openedAtMs: MEASURED_MS + 1 });
    expect(briefingOf(toldOf(message(wind('wind-shifted', 290))), answer, 'crew', later)).toBeNull();
  });
});
