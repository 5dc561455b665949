// The glance from an invented answer.

import { describe, expect, it } from 'vitest';
import { glancePage } from '#publish/page/glance-page.ts';
import type { NowAnswer } from '#publish/wire-watch.ts';
import { glanceView } from './invented-glance.ts';
import { wordsOf } from './read-page.ts';

const notice = (
  text: string,
  clock: string,
  acknowledgedBy: string | null,
): NowAnswer['notices'][number] => ({
  ...{ id: text, site: 'heron-bend-2', code: 'smoke-turned-to-place', subject: text, phase: 'raised' },
  ...{ since: clock, raisedAt: clock, verdict: 'stop', acknowledgedBy },
  acknowledgedAt: acknowledgedBy === null ? null : clock,
  condition: {
    ...{ code: 'smoke-turned-to-place', subject: text, truth: 'true', verdict: 'stop', basis: 'observed' },
    ...{ asOf: clock, text },
  },
});

const EARLIER = '2026-11-25T11:50:00-05:00';
const LATER = '2026-11-25T12:05:00-05:00';

function pageOf(...notices: NowAnswer['notices']): string {
  const view = glanceView('en');
  return wordsOf(glancePage({ ...view, live: { ...view.live, notices } }));
}

describe('who has seen the notice that the glance shows', () => {
  it('is who answered that very one, not another that stands beside it', () => {
    const seen = notice('Smoke of an earlier notice.', EARLIER, 'Ana');
    const unseen = notice('Smoke of a later notice.', LATER, null);
    for (const page of [pageOf(seen, unseen), pageOf(unseen, seen)]) {
      expect(page).toContain('Smoke of a later notice.');
      expect(page).not.toContain('Seen by');
    }
    const both = pageOf(seen, notice('Smoke of a later notice.', LATER, 'Ben'));
    expect(both).toContain('Smoke of a later notice. Seen by Ben.');
    expect(both).not.toContain('Ana.');
  });
});

describe('the taps that come next', () => {
  type Burn = NonNullable<NowAnswer['burn']>;
  const STATES: readonly Burn['state'][] = ['lit', 'charging', 'burning-down', 'put-out-early'];
  const { live, ...view } = glanceView('en');
  const page = (change: Partial<NowAnswer>): string => glancePage({ ...view, live: { ...live, ...change } });
  const largeOf = (body: string): string[] =>
    [...(/<div class="large">(.*?)<\/div>/s.exec(body)?.[1] ?? '').matchAll(/value="([\w-]+)/g)].map(
      ([, kind]) => kind ?? '',
    );
  const nextOf = (body: string): Record<string, string[]> =>
    JSON.parse((/data-next="([^"]*)"/.exec(body)?.[1] ?? '').replaceAll('&quot;', '"'));

  it.each(['go', 'hold', 'stop'] as const)(
    'are of a tap that waits on the phone those of the page itself, under %s',
    (verdict) => {
      const next = nextOf(page({ verdict }));
      for (const state of STATES) {
        const burn = live.burn && { ...live.burn, state };
        const large = largeOf(page({ verdict, burn }));
        expect([state, large.length > 0, next[state]]).toEqual([state, true, large]);
      }
      expect(next['covered']).toEqual(largeOf(page({ verdict, burn: null })));
      expect(next['lit']?.includes('charging')).toBe(verdict !== 'stop');
    },
  );
});
