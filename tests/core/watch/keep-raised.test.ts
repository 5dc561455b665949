import { describe, expect, it } from 'vitest';
import type { Condition, Truth } from '#core/watch/condition.ts';
import { keepRaised } from '#core/watch/keep-raised.ts';
import { makeCondition } from '#core/watch/make-condition.ts';
import { clock } from '../../builders/watch.ts';

const condition = (truth: Truth, asOf: string | null, more: Partial<Condition> = {}): Condition => ({
  ...makeCondition('smoke-turned-to-place', {
    subject: 'school',
    truth,
    verdict: 'hold',
    basis: 'observed',
    asOfMs: asOf === null ? null : clock(asOf),
    validUntilMs: clock('14:00'),
    figures: { place: 'school', windFromDeg: truth === 'true' ? 270 : 180 },
  }),
  ...more,
});
const kept = (before: readonly Condition[], now: readonly Condition[]) =>
  keepRaised(before, now).map((c) => [c.truth, c.verdict, c.asOfMs]);

describe('what was raised', () => {
  it('is over by what is newer', () => {
    expect(kept([condition('true', '12:50', { verdict: 'stop' })], [condition('false', '12:55')])).toEqual([
      ['false', 'hold', clock('12:55')],
    ]);
  });

  it('is unknown, with what it was raised with, by what is as old or older', () => {
    const [found] = keepRaised(
      [condition('true', '12:50', { verdict: 'stop' })],
      [condition('false', '12:50')],
    );
    expect(found).toMatchObject({
      truth: 'unknown',
      verdict: 'stop',
      asOfMs: clock('12:50'),
      figures: { windFromDeg: 270 },
    });
  });

  it('stays unknown with its verdict while nobody can say', () => {
    const raised = condition('true', '12:50', { verdict: 'stop' });
    const first = keepRaised([raised], [condition('unknown', null)]);
    expect(kept(first, [condition('unknown', null)])).toEqual([['unknown', 'stop', clock('12:50')]]);
    expect(kept(first, [condition('false', '12:45')])[0]?.[0]).toBe('unknown');
    expect(kept(first, [condition('false', '13:00')])[0]?.[0]).toBe('false');
  });

  it('is as true as it is now where it is true', () => {
    const now = condition('true', '12:40');
    expect(keepRaised([condition('true', '12:50', { verdict: 'stop' })], [now])).toEqual([now]);
  });

  it('and is no longer asked at all is over: nothing stays raised for ever', () => {
    expect(kept([condition('true', '12:50'), condition('unknown', null, { subject: 'road' })], [])).toEqual([
      ['false', 'hold', clock('12:50')],
      ['false', 'hold', null],
    ]);
    expect(kept([condition('false', '12:50')], [])).toEqual([]);
  });

  it('holds back only what is measured: a plan or a record speaks for itself', () => {
    const now = condition('false', '12:50', { basis: 'forecast' });
    expect(keepRaised([condition('true', '12:50', { basis: 'forecast' })], [now])).toEqual([now]);
  });
});
