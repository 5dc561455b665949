// Two pits burn at one site at once.

import { describe, expect, it } from 'vitest';
import type { Condition } from '#core/watch/condition.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import { siteWith } from '../../builders/site.ts';
import { clock } from '../../builders/watch.ts';
import { OPEN_BURN, type WatchText, watchInput } from '../../builders/watch-input.ts';

// Fair weather, shift 07:00 to 17:00: last charge 15:30, covered by 17:00.
const FIRST = {
  ...OPEN_BURN,
  id: 'burn-a',
  state: 'burning-down' as const,
  sinceMs: clock('11:00'),
};
const SECOND = { ...OPEN_BURN, id: 'burn-b', openedAtMs: clock('12:40'), litAtMs: clock('12:40') };
const BOTH: WatchText = { burn: SECOND, alsoOpen: [{ burn: FIRST, litBy: null }] };

const judge = (text: WatchText): Condition[] => judgeWatch(watchInput(text));
const truths = (conditions: readonly Condition[], code: string) =>
  Object.fromEntries(conditions.filter((c) => c.code === code).map(({ subject, truth }) => [subject, truth]));

describe('of two open burns', () => {
  it('the first is to be covered when that is due, whatever was lit since', () => {
    expect(truths(judge({ ...BOTH, now: '13:00' }), 'cover-due')).toEqual({ '': 'true', 'burn-b': 'false' });
  });

  it('both are told of dusk', () => {
    const site = siteWith({ daylight: { lightUpAfterSunriseMin: 0, outBeforeSunsetMin: 60 } });
    const found = truths(judge({ ...BOTH, now: '18:00', site }), 'not-covered-by-dusk');
    expect(found).toEqual({ '': 'true', 'burn-b': 'true' });
  });

  it('the last charge of each is its own', () => {
    const first = { ...FIRST, state: 'charging' as const };
    const open: WatchText = {
      burn: { ...SECOND, state: 'burning-down' },
      alsoOpen: [{ burn: first, litBy: null }],
    };
    const found = truths(judge({ ...open, now: '15:30' }), 'last-charge-due');
    expect(found).toEqual({ '': 'true', 'burn-b': 'false' });
  });

  it('the second keeps its notices when the first is covered, and a third is told apart from it', () => {
    const before = judge({ ...BOTH, now: '12:45' });
    const alone = judge({ burn: SECOND, before, now: '13:00' });
    // Of the first it says that it is over.
    expect(truths(alone, 'cover-due')).toEqual({ '': 'false', 'burn-b': 'false' });
    const third = { ...SECOND, id: 'burn-c', openedAtMs: clock('13:05'), litAtMs: clock('13:05') };
    const next = { burn: third, alsoOpen: [{ burn: SECOND, litBy: null }], before: alone, now: '13:10' };
    expect(truths(judge(next), 'cover-due')).toEqual({ '': 'false', 'burn-b': 'false' });
  });

  it('each is named by when it was lit, and what is left of them keeps its name; one alone needs none', () => {
    const pits = (conditions: readonly Condition[]) =>
      Object.fromEntries(
        conditions
          .filter(({ code, truth }) => code === 'cover-due' && truth !== 'unknown')
          .map(({ subject, figures }) => [subject, figures.pit]),
      );
    const both = judge({ ...BOTH, now: '12:45' });
    const first = { litAtMs: FIRST.litAtMs, nth: null };
    const second = { litAtMs: SECOND.litAtMs, nth: null };
    expect(pits(both)).toEqual({ '': first, 'burn-b': second });
    expect(pits(judge({ burn: SECOND, before: both }))['burn-b']).toEqual(second);
    expect(pits(judge({ burn: FIRST, before: both }))['']).toEqual(first);
    expect(pits(judge({ burn: FIRST }))).toEqual({ '': null });
    const others = judge(BOTH).filter(
      ({ code }) => code === 'wind-shifted' || code === 'observed-beyond-limit',
    );
    expect(others.length).toBeGreaterThan(1);
    expect(others.map(({ figures }) => figures.pit)).toEqual(others.map(() => null));
  });

  it('lit in the same minute they are told apart by their order', () => {
    const twin = { ...FIRST, id: 'burn-c', openedAtMs: FIRST.openedAtMs + 20_000 };
    const found = judge({
      burn: { ...twin, litAtMs: twin.openedAtMs },
      alsoOpen: [{ burn: FIRST, litBy: null }],
    });
    const named = found.filter(({ code }) => code === 'cover-due').map(({ figures }) => figures.pit?.nth);
    expect(named.sort()).toEqual([1, 2]);
  });

  it('and of three the second stays the second when the first is covered, whatever was withdrawn', () => {
    const at = (id: string, afterMs: number) => {
      const openedAtMs = clock('12:40') + afterMs;
      return { ...OPEN_BURN, id, openedAtMs, litAtMs: openedAtMs };
    };
    const [none, a, b, c] = [at('none', 0), at('a', 1000), at('b', 2000), at('c', 3000)];
    const withdrawn = { ...none, state: 'lit' as const, closedAtMs: clock('12:41') };
    const nths = (text: WatchText) =>
      judge({ ...text, now: '12:50' })
        .filter(({ code, truth, figures }) => code === 'last-charge-due' && truth === 'false' && figures.pit)
        .map(({ figures }) => figures.pit?.nth)
        .sort();
    const beside = (...burns: (typeof a)[]) => burns.map((burn) => ({ burn, litBy: null }));
    expect(nths({ burn: c, alsoOpen: beside(b, a), covered: [withdrawn] })).toEqual([1, 2, 3]);
    const covered = { ...a, state: 'covered' as const, closedAtMs: clock('12:45') };
    expect(nths({ burn: c, alsoOpen: beside(b), covered: [withdrawn, covered] })).toEqual([2, 3]);
  });
});
