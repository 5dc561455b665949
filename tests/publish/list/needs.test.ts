import { describe, expect, it } from 'vitest';
import type { Notice } from '#core/notices/notice.ts';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import type { Verdict } from '#core/rules/finding.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { countsOf, filtered, type ListFilter } from '#publish/list/filter.ts';
import { type Facts, judged, sorted } from '#publish/list/needs.ts';
import type { DayDigest, SiteDigest } from '#publish/list/site-digest.ts';
import type { Mark } from '#publish/page/standing.ts';
import { gust } from '../../builders/notices.ts';

const NOW_MS = Date.parse('2026-04-14T17:00:00Z');
const TODAY = '2026-04-14';

function dayOf(mark: Mark, date = TODAY, lightUpMs: number | null = NOW_MS): DayDigest {
  const isGo = mark === 'go' && lightUpMs !== null;
  const times = isGo
    ? {
        lightUp: lightUpMs,
        lightUpBy: lightUpMs + 60 * MINUTE_MS,
        lastCharge: lightUpMs + 120 * MINUTE_MS,
        burnedDown: lightUpMs + 180 * MINUTE_MS,
        coveredBy: lightUpMs + 210 * MINUTE_MS,
      }
    : null;
  const verdict: Verdict = mark === 'unsaid' ? 'hold' : mark;
  const summary: DaySummary = {
    date,
    verdict,
    cannotSay: mark === 'unsaid',
    times,
    reasons: [],
    windows: [[verdict, 0, Number.POSITIVE_INFINITY]],
  };
  return { date, mark, coveredByMs: times?.coveredBy ?? null, summary };
}

const digestOf = (today: Mark, tomorrow: Mark = 'go'): SiteDigest => ({
  today: dayOf(today),
  tomorrow: dayOf(tomorrow, '2026-04-15', NOW_MS + 1440 * MINUTE_MS),
  nowVerdict: today === 'unsaid' ? null : today,
});

const LIMITS = { name: 'valley', elements: [{ source: 'permit 26-014' }], clock: [], seasons: [] };

const factsOf = (name: string, change: Partial<Facts> = {}): Facts => ({
  site: {
    key: `own/${name}`,
    id: name,
    name,
    limits: LIMITS,
    state: { fault: null },
  } as unknown as Facts['site'],
  digest: digestOf('go'),
  freshness: 'fresh',
  burn: null,
  stood: null,
  notices: [],
  evening: null,
  undelivered: [],
  ...change,
});

const BURN: Facts['burn'] = {
  id: 'b',
  site: 'own/a',
  state: 'charging',
  openedAtMs: NOW_MS,
  litAtMs: NOW_MS,
  sinceMs: NOW_MS,
  closedAtMs: null,
  briefedFromDeg: null,
};

const needs = (change: Partial<Facts>, nowMs = NOW_MS) => judged(factsOf('a', change), nowMs).needs;

describe('what needs somebody', () => {
  const standing = {
    standing: 'stop',
    told: 'stop',
    raisedAtMs: NOW_MS,
    acknowledgedAtMs: null,
    condition: gust('true', 'stop'),
  } as unknown as Notice;

  it('nothing of a site in order', () => {
    expect(needs({})).toEqual([]);
    expect(needs({ digest: digestOf('hold', 'stop') })).toEqual([]);
  });

  it('a fire under a hold or a stop of plan or notice, and one that nobody can judge', () => {
    expect(needs({ burn: BURN })).toEqual([]);
    expect(needs({ burn: BURN, digest: digestOf('hold') })).toEqual(['burn-hold']);
    expect(needs({ burn: BURN, digest: digestOf('stop') })).toEqual(['burn-stop']);
    expect(needs({ burn: BURN, digest: { ...digestOf('go'), nowVerdict: null } })).toEqual(['burn-hold']);
    expect(needs({ burn: BURN, notices: [{ ...standing, acknowledgedAtMs: NOW_MS }] })).toEqual([
      'burn-stop',
    ]);
  });

  it('a notice that asks and that nobody has answered, until somebody has or it is over', () => {
    expect(needs({ notices: [standing] })).toEqual(['unanswered']);
    expect(needs({ notices: [{ ...standing, acknowledgedAtMs: NOW_MS }] })).toEqual([]);
    expect(needs({ notices: [{ ...standing, standing: null }] })).toEqual([]);
    expect(needs({ notices: [{ ...standing, raisedAtMs: null }] })).toEqual([]);
    expect(needs({ notices: [{ ...standing, told: 'go' }] })).toEqual([]);
  });

  it('a pit that is not covered when it should be', () => {
    const dueMs = NOW_MS + 210 * MINUTE_MS;
    expect(needs({ burn: BURN }, dueMs - 1)).toEqual([]);
    expect(needs({ burn: BURN }, dueMs)).toEqual(['not-covered']);
    expect(needs({}, dueMs)).toEqual([]);
  });

  it('no forecast, an old one, and a day of which nobody can say', () => {
    expect(needs({ freshness: 'none' })).toEqual(['no-forecast']);
    expect(needs({ digest: { today: null, tomorrow: null, nowVerdict: null } })).toEqual(['no-forecast']);
    expect(needs({ freshness: 'stale' })).toEqual(['stale']);
    expect(needs({ digest: digestOf('go', 'unsaid') })).toEqual(['cannot-say']);
  });

  it('another verdict than the evening text told of that very day', () => {
    const told = (day: DayDigest) => ({
      evening: { atMs: NOW_MS - 960 * MINUTE_MS, day: { date: day.date, day: day.summary, changes: null } },
    });
    expect(needs(told(dayOf('hold')))).toEqual(['verdict-changed']);
    expect(needs(told(dayOf('go')))).toEqual([]);
    expect(needs(told(dayOf('hold', '2026-04-13')))).toEqual([]);
    const moved = judged(factsOf('a', told(dayOf('go', TODAY, NOW_MS + MINUTE_MS))), NOW_MS);
    expect(moved.needs).toEqual([]);
    expect(moved.changes.map(({ kind }) => kind)).toContain('time');
  });
});

describe('the order of the list', () => {
  const all = [
    factsOf('b go'),
    factsOf('A go'),
    factsOf('hold', { digest: digestOf('hold') }),
    factsOf('stop', { digest: digestOf('go', 'stop') }),
    factsOf('burns', { burn: BURN }),
    factsOf('stale', { freshness: 'stale' }),
    factsOf('none', { freshness: 'none' }),
    factsOf('burns on', { burn: BURN, digest: digestOf('stop') }),
    factsOf('unsure', { digest: digestOf('unsaid') }),
  ].map((facts) => judged(facts, NOW_MS));
  const names = (list: readonly Facts[]): string[] => list.map(({ site }) => site.name);

  it('is by what needs somebody, then by the fires, then by the worse day, then by name', () => {
    expect(names(sorted(all))).toEqual([
      'burns on',
      'none',
      'stale',
      'unsure',
      'burns',
      'stop',
      'hold',
      'A go',
      'b go',
    ]);
  });

  it('and a day says no go, nor a hold under a stop, where a fire burns under worse', () => {
    const marks = (change: Partial<Facts>) => judged(factsOf('a', change), NOW_MS).marks.today;
    const stop = { standing: 'stop', condition: gust('true', 'stop') } as unknown as Notice;
    expect(marks({ burn: BURN, notices: [stop] })).toBe('stop');
    expect(marks({ burn: BURN, notices: [{ ...stop, standing: 'hold' }] })).toBe('hold');
    expect(marks({ burn: BURN, digest: digestOf('hold'), notices: [stop] })).toBe('stop');
    expect(marks({ notices: [stop] })).toBe('go');
    expect(marks({ burn: BURN })).toBe('go');
  });

  it('and from light-up on no go that the last look forbids where nothing burns', () => {
    const marks = (stood: Facts['stood'], change: Partial<Facts> = {}, nowMs = NOW_MS) =>
      judged(factsOf('a', { stood, ...change }), nowMs).marks.today;
    const [stop, hold] = (['stop', 'hold'] as const).map((verdict) => ({ verdict, unknown: false }));
    expect(marks(null)).toBe('go');
    expect(marks(stop ?? null)).toBe('stop');
    expect(marks(hold ?? null)).toBe('hold');
    expect(marks({ verdict: 'hold', unknown: true })).toBe('unsaid');
    // Before light-up the day's answer is the answer; with a fire what was told is.
    expect(marks(stop ?? null, {}, NOW_MS - 1)).toBe('go');
    expect(marks(stop ?? null, { burn: BURN })).toBe('go');
    // No worse than the plan of this moment: the plan has weighed it.
    expect(marks(hold ?? null, { digest: { ...digestOf('go'), nowVerdict: 'hold' } })).toBe('go');
    expect(marks(stop ?? null, { digest: { ...digestOf('go'), nowVerdict: 'hold' } })).toBe('stop');
    expect(judged(factsOf('a', { stood: stop ?? null }), NOW_MS).marks.tomorrow).toBe('go');
  });

  it('is the same however they came', () => {
    expect(names(sorted(all.toReversed()))).toEqual(names(sorted(all)));
  });

  const ALL: ListFilter = { q: null, verdict: null, day: 'today', show: null };
  it.each([
    [{ verdict: 'hold' }, ['hold']],
    [{ verdict: 'stop' }, ['burns on']],
    [{ verdict: 'stop', day: 'tomorrow' }, ['stop']],
    [{ show: 'burning' }, ['burns', 'burns on']],
    [{ show: 'needs' }, ['stale', 'none', 'burns on', 'unsure']],
    [{ show: 'changed' }, []],
    [{ q: 'BURNS  on' }, ['burns on']],
    [{ q: 'Permít 26-014 hold' }, ['hold']],
    [{ q: 'nowhere' }, []],
  ] as [Partial<ListFilter>, string[]][])('a filter %j leaves %j', (filter, left) => {
    expect(names(filtered(all, { ...ALL, ...filter }))).toEqual(left);
  });

  it('every site is counted once a day', () => {
    const counts = countsOf(all);
    expect(counts.today).toEqual({ go: 6, hold: 1, stop: 1, unsaid: 1 });
    expect(counts.tomorrow).toEqual({ go: 8, hold: 0, stop: 1, unsaid: 0 });
    expect([counts.total, counts.needs, counts.burning, counts.changed]).toEqual([9, 4, 2, 0]);
  });
});
