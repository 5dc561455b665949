// What holds of notices in any history whatever: of any conditions, in any order, at any pace.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Notice, Transition } from '#core/notices/notice.ts';
import { stepNotices, type Unlisted } from '#core/notices/step-notices.ts';
import { type Verdict, worseOf } from '#core/rules/finding.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Condition, ConditionCode, Truth } from '#core/watch/condition.ts';
import { conditionOf, EIGHT_MS, SITE } from '../../builders/notices.ts';

const CLEAR_MIN = 10;
const HOLD_MIN: Readonly<Record<string, number>> = { 'wind-shifted': 5, 'observed-beyond-limit': 0 };
const CODES: readonly ConditionCode[] = [
  'wind-shifted',
  'observed-beyond-limit',
  'station-silent',
  'plan-moved',
];

interface Judged {
  readonly afterMin: number;
  readonly seen: readonly {
    readonly code: ConditionCode;
    readonly truth: Truth;
    readonly verdict: Verdict;
  }[];
  readonly unlisted: Unlisted;
  readonly burnOpen: boolean;
}

const judgedArbitrary: fc.Arbitrary<Judged> = fc.record({
  afterMin: fc.constantFrom(0, 1, 1, 1, 2, 4, 5),
  seen: fc.uniqueArray(
    fc.record({
      code: fc.constantFrom(...CODES),
      truth: fc.constantFrom<Truth>('true', 'true', 'false', 'false', 'unknown'),
      verdict: fc.constantFrom<Verdict>('go', 'hold', 'stop'),
    }),
    { selector: (s) => s.code, minLength: 2, maxLength: 4 },
  ),
  unlisted: fc.constantFrom<Unlisted>('unknown', 'unknown', 'unknown', 'false', 'dropped'),
  burnOpen: fc.boolean(),
});

interface Step {
  readonly judged: Judged;
  readonly nowMs: number;
  readonly conditions: readonly Condition[];
  readonly before: readonly Notice[];
  readonly notices: readonly Notice[];
  readonly transitions: readonly Transition[];
}

const conditionsOf = (judged: Judged): Condition[] =>
  judged.seen.map(({ code, truth, verdict }) =>
    conditionOf(code, truth, {
      verdict,
      holdsForMs: (HOLD_MIN[code] ?? 2) * MINUTE_MS,
      clearsForMs: CLEAR_MIN * MINUTE_MS,
    }),
  );

function run(history: readonly Judged[]): Step[] {
  let notices: readonly Notice[] = [];
  let nowMs = EIGHT_MS;
  return history.map((judged) => {
    nowMs += judged.afterMin * MINUTE_MS;
    const before = notices;
    const conditions = conditionsOf(judged);
    const stepped = stepNotices({
      ...judged,
      site: SITE,
      notices,
      conditions,
      unlisted: () => judged.unlisted,
      nowMs,
    });
    notices = JSON.parse(JSON.stringify(stepped.notices));
    return { judged, nowMs, conditions, before, ...stepped };
  });
}

const inAnyHistory = (law: (steps: readonly Step[]) => void): void =>
  fc.assert(
    fc.property(fc.array(judgedArbitrary, { maxLength: 80 }), (history) => law(run(history))),
    { numRuns: 150 },
  );

const truthOf = ({ judged }: Step, code: ConditionCode): Truth | Unlisted =>
  judged.seen.find((s) => s.code === code)?.truth ?? judged.unlisted;

it('transitions of an episode are numbered from one without gaps, begin with a telling, and end once', () => {
  inAnyHistory((steps) => {
    const episodes = Map.groupBy(
      steps.flatMap((s) => s.transitions),
      (t) => `${t.notice} ${t.episode}`,
    );
    for (const transitions of episodes.values()) {
      expect(transitions.map((t) => t.number)).toEqual(transitions.map((_, i) => i + 1));
      const kinds = transitions.map((t) => t.kind);
      expect(['raised', 'unsteady']).toContain(kinds[0]);
      const ends = kinds.findIndex((kind) => kind === 'over' || kind === 'corrected');
      expect([-1, kinds.length - 1]).toContain(ends);
      for (const once of ['raised', 'unsteady', 'unsure'] as const) {
        expect(kinds.filter((kind) => kind === once).length).toBeLessThanOrEqual(1);
      }
      // What was told before is what the transition before said.
      for (const [i, t] of transitions.entries()) {
        const told = transitions.slice(0, i).findLast(({ kind }) => kind !== 'unsure');
        expect(t.was).toBe(told?.verdict ?? null);
      }
    }
  });
});

it('nothing better is told unless it was judged better at every step of the clear time', () => {
  inAnyHistory((steps) => {
    for (const [i, step] of steps.entries()) {
      for (const t of step.transitions) {
        if (t.kind !== 'over') continue;
        const since = step.nowMs - CLEAR_MIN * MINUTE_MS;
        const lately = steps.slice(0, i + 1).filter((s) => s.nowMs > since);
        for (const s of lately) expect(truthOf(s, t.condition.code)).toBe('false');
      }
    }
  });
});

it('what is true for its hold time is told at that step, or a stop that was told stands', () => {
  inAnyHistory((steps) => {
    for (const { notices, conditions, before } of steps) {
      const stop = before.some((n) => n.told === 'stop');
      for (const condition of conditions) {
        if (condition.truth !== 'true' || condition.holdsForMs > 0) continue;
        const notice = notices.find((n) => n.condition.code === condition.code);
        const told = notice?.told ?? null;
        if (told === null || worseOf(told, condition.verdict) !== told)
          expect(stop && condition.verdict !== 'stop').toBe(true);
      }
    }
  });
});

it('judged again at the same moment, nothing more is told and nothing changes', () => {
  inAnyHistory((steps) => {
    for (const { judged, nowMs, conditions, notices } of steps) {
      const again = stepNotices({
        ...judged,
        site: SITE,
        notices,
        conditions,
        unlisted: () => judged.unlisted,
        nowMs,
      });
      expect(again.notices).toEqual(notices);
      expect(again.transitions).toEqual([]);
    }
  });
});

it('two who judge the same make the same, to the byte', () => {
  fc.assert(
    fc.property(fc.array(judgedArbitrary, { maxLength: 40 }), (history) => {
      expect(JSON.stringify(run(history))).toBe(JSON.stringify(run(history)));
    }),
    { numRuns: 30 },
  );
});
