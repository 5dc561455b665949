import { describe, expect, it } from 'vitest';
import type { Verdict } from '#core/rules/finding.ts';
import { chargeConditions } from '#core/watch/charge-conditions.ts';
import type { Condition, Truth } from '#core/watch/condition.ts';
import { foldTaps } from '#core/watch/fold-taps.ts';
import { makeCondition } from '#core/watch/make-condition.ts';
import { tapOf } from '../../builders/tap.ts';
import { clock, the } from '../../builders/watch.ts';
import { type WatchText, watchContextOf } from '../../builders/watch-input.ts';

describe('a light-up without a go', () => {
  const LIT = [tapOf('lit', '09:00')];
  const burn = foldTaps(LIT, 'org/quarry-field', 180);
  const seen = (verdict: Verdict, truth: Truth = 'true') =>
    makeCondition('local-order', {
      ...{ truth, verdict, basis: 'order', asOfMs: clock('08:00'), validUntilMs: clock('18:00') },
    });
  const look = (now: string, beside: readonly Condition[], text: WatchText = {}, taps = burn) => {
    if (taps === null) throw new Error('no burn');
    return the(
      chargeConditions(watchContextOf({ burn: taps, now, ...text }), taps, beside),
      'lit-without-go',
    );
  };

  it('is one while the watch alone said hold or stop, with the worst that it said', () => {
    expect(look('09:01', [seen('hold'), seen('stop')])).toMatchObject({
      truth: 'true',
      figures: { what: 'stop', atMs: clock('09:00') },
    });
    expect(look('09:01', [seen('go'), seen('stop', 'unknown'), seen('stop', 'false')]).truth).toBe('false');
  });

  it('stays what it was at the light-up, whatever the watch says later', () => {
    const before = [look('09:01', [])];
    expect(look('09:10', [seen('stop')], { before }).truth).toBe('false');
    const lit = [look('09:01', [seen('hold')])];
    expect(look('15:00', [], { before: lit })).toMatchObject({ truth: 'true', figures: { what: 'hold' } });
    // A tap that comes late is not judged by what is seen then.
    expect(look('09:06', [seen('stop')]).truth).toBe('false');
  });

  it('is one where there is neither a plan nor a word of it, and not twice where the plan was against it', () => {
    expect(look('09:01', [], { plan: null, briefed: null })).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { what: 'noPlan' },
    });
    expect(look('09:01', [], { plan: null }).truth).toBe('false');
    const early = foldTaps([tapOf('lit', '06:00')], 'org/quarry-field', 180);
    expect(look('06:01', [seen('stop')], {}, early).truth).toBe('false');
  });
});
