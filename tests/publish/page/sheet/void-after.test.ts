import { describe, expect, it } from 'vitest';
import { voidAfterMs, voidOf } from '#publish/page/sheet/void-after.ts';
import { STORIES, siteView } from '../invented-days.ts';

describe('until when a sheet may be used', () => {
  const go = siteView(STORIES.go);

  it('is until its own forecast is too old, whatever is published later', () => {
    expect(voidAfterMs('2026-11-24T16:15:00-05:00', 840)).toBe(Date.parse('2026-11-25T06:15:00-05:00'));
    expect(voidAfterMs(null, 840)).toBeNull();
    expect(voidOf(go, 840)).toEqual({
      isVoid: false,
      title: 'VOID AFTER Wed, Nov 25, 6:15 am',
      notes: [
        'and on any text that says otherwise; next forecast due Tue, Nov 24, 5:22 pm',
        'It ends before light-up: print it anew before you light.',
      ],
    });
    expect(voidOf(go, 24 * 60).notes).toHaveLength(1);
  });

  it('is over at that very minute, without a date of the forecast, and where a page would give no go', () => {
    const atMs = Date.parse('2026-11-25T06:15:00-05:00');
    const isVoid = (change: Partial<typeof go>) => voidOf({ ...go, ...change }, 840).isVoid;
    expect(isVoid({})).toBe(false);
    expect(isVoid({ nowMs: atMs })).toBe(true);
    expect(isVoid({ plan: { ...go.plan, madeAt: null } })).toBe(true);
    expect(isVoid({ plan: { ...go.plan, stale: true } })).toBe(true);
    expect(isVoid({ forecast: { ...go.forecast, state: 'stale' } })).toBe(true);
    expect(isVoid({ plan: { ...go.plan, goodUntil: go.plan.workedOutAt } })).toBe(true);
  });
});
