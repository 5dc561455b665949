// What somebody who knows the plan before must be told. Expected values are worked out by hand on the plain site.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diffPlans, type PlanChange } from '#core/plan/diff-plans.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import { type DaySummary, reasonName, summariseDays } from '#core/plan/plan-summary.ts';
import { SEVERITY } from '#core/rules/finding.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { byClock } from '../../builders/forecast.ts';
import { inputOf } from '../../builders/plan.ts';
import { scenarioArb, toInput } from '../../builders/scenario.ts';

const DAY_MS = 24 * HOUR_MS;
const MONDAY_MS = Date.parse('2026-03-02T00:00:00-06:00');

/** A day of hold but for go from `from` to `to` o'clock. */
function day(text: Partial<DaySummary> & { go?: [number, number] } = {}): DaySummary {
  const { go = [9, 13], ...given } = text;
  const at = (hour: number) => MONDAY_MS + hour * HOUR_MS;
  return {
    date: '2026-03-02',
    verdict: 'go',
    cannotSay: false,
    times: {
      lightUp: at(go[0]),
      lightUpBy: at(go[1]) - 20 * MINUTE_MS,
      lastCharge: at(go[1]),
      burnedDown: at(go[1] + 1),
      coveredBy: at(go[1] + 1.5),
    },
    reasons: ['over-limit windGust'],
    windows: [
      ['hold', at(0), at(go[0])],
      ['go', at(go[0]), at(go[1])],
      ['hold', at(go[1]), at(24)],
    ],
    ...given,
  };
}

const NO_GO = day({
  verdict: 'stop',
  times: null,
  reasons: ['official-alert Red Flag Warning'],
  windows: [['stop', MONDAY_MS, MONDAY_MS + DAY_MS]],
});
const SIX_MS = MONDAY_MS + 6 * HOUR_MS;

const timesOf = (changes: readonly PlanChange[]) =>
  changes.flatMap((c) => (c.kind === 'time' ? [[c.time, c.movedMin, c.tendency]] : []));

describe('the difference of two plans', () => {
  it('is nothing between a plan and itself', () => {
    expect(diffPlans([day()], [day()], SIX_MS)).toEqual([]);
  });

  it('says by how many minutes each time has moved, and whether that gives less', () => {
    const changes = diffPlans([day()], [day({ go: [10, 12] })], SIX_MS);
    expect(timesOf(changes)).toEqual([
      ['lightUp', 60, 'worse'],
      ['lightUpBy', -60, 'worse'],
      ['lastCharge', -60, 'worse'],
      ['burnedDown', -60, 'worse'],
      ['coveredBy', -60, 'worse'],
    ]);
    expect(changes).toContainEqual({
      kind: 'windows',
      date: '2026-03-02',
      goMin: -120,
      holdMin: 120,
      stopMin: 0,
      tendency: 'worse',
    });
  });

  it('an earlier light-up and a later last charge are better', () => {
    const changes = diffPlans([day()], [day({ go: [8, 14] })], SIX_MS);
    expect(new Set(timesOf(changes).map((t) => t[2]))).toEqual(new Set(['better']));
  });

  it('tells verdict, times that are gone, and which reasons have come and gone', () => {
    const changes = diffPlans([day()], [NO_GO], SIX_MS);
    expect(changes[0]).toEqual({
      kind: 'verdict',
      date: '2026-03-02',
      from: 'go',
      to: 'stop',
      tendency: 'worse',
    });
    expect(timesOf(changes)).toContainEqual(['lastCharge', null, 'worse']);
    expect(changes.at(-1)).toEqual({
      kind: 'reason',
      date: '2026-03-02',
      gone: ['over-limit windGust'],
      come: ['official-alert Red Flag Warning'],
      tendency: 'other',
    });
  });

  it('passes over what lies behind now: a light-up at nine is no news at ten', () => {
    const ten = MONDAY_MS + 10 * HOUR_MS;
    expect(diffPlans([day({ go: [8, 13] })], [day({ go: [9, 13] })], ten)).toEqual([]);
    expect(diffPlans([day()], [NO_GO], MONDAY_MS + DAY_MS)).toEqual([]);
  });

  it('passes over days that only one of the two has', () => {
    expect(diffPlans([], [day()], SIX_MS)).toEqual([]);
    expect(diffPlans([day()], [], SIX_MS)).toEqual([]);
  });

  it('a stop that takes the place of a hold is worse though no minute of go is lost', () => {
    const windows = day().windows.map((w, i) => (i === 2 ? (['stop', w[1], w[2]] as const) : w));
    const [change] = diffPlans([day()], [day({ windows })], SIX_MS);
    expect(change).toMatchObject({ kind: 'windows', goMin: 0, stopMin: 660, tendency: 'worse' });
  });
});

describe('on whole plans', () => {
  it('a stop by wind from two o’clock on brings the last charge forward to half past twelve', () => {
    const plainWind = byClock('windSpeed', { '00:00': '7 mph' });
    const calm = makePlan(inputOf({ weather: { windSpeed: plainWind } }));
    const windy = makePlan(
      inputOf({ weather: { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '14:00': '16 mph' }) } }),
    );
    const changes = diffPlans(summariseDays(calm), summariseDays(windy), calm.nowMs);
    const charge = changes.find((c) => c.kind === 'time' && c.time === 'lastCharge');
    // Burn-down 60 min and cover 30 min before the stop at 14:00.
    expect(charge).toMatchObject({ toMs: MONDAY_MS + 12.5 * HOUR_MS, tendency: 'worse' });
    expect(changes.find((c) => c.kind === 'reason')).toMatchObject({
      come: ['over-limit windSpeed'],
    });
  });

  it('a summary is plain data: it goes through JSON and stays the same', () => {
    fc.assert(
      fc.property(scenarioArb, (scenario) => {
        const days = summariseDays(makePlan(toInput(scenario)));
        expect(JSON.parse(JSON.stringify(days))).toEqual(days);
      }),
      { numRuns: 60 },
    );
  });

  it('is empty for the same plan, and its windows change whenever an instant ahead has another verdict', () => {
    fc.assert(
      fc.property(scenarioArb, scenarioArb, (a, b) => {
        const [was, now] = [makePlan(toInput(a)), makePlan(toInput({ ...a, values: b.values }))];
        const [before, after] = [summariseDays(was), summariseDays(now)];
        expect(diffPlans(before, before, was.nowMs)).toEqual([]);
        const changed = new Set(
          diffPlans(before, after, was.nowMs)
            .filter((c) => c.kind === 'windows')
            .map((c) => c.date),
        );
        for (const [i, one] of after.entries()) {
          const other = before[i];
          expect(changed.has(one.date)).toBe(differsAhead(other, one, was.nowMs));
        }
      }),
      { numRuns: 60 },
    );
  });
});

/** Sampled every five minutes: independent of how windows are compared. */
function differsAhead(a: DaySummary | undefined, b: DaySummary, nowMs: number): boolean {
  const verdictAt = (d: DaySummary | undefined, ms: number) =>
    d?.windows.find((w) => w[1] <= ms && ms < w[2])?.[0] ?? 'hold';
  const toMs = b.windows.at(-1)?.[2] ?? nowMs;
  for (let ms = Math.max(nowMs, b.windows[0]?.[1] ?? nowMs); ms < toMs; ms += MINUTE_MS) {
    if (SEVERITY[verdictAt(a, ms)] !== SEVERITY[verdictAt(b, ms)]) return true;
  }
  return false;
}

describe('a reason by name', () => {
  it('is its code and what it speaks of, never a figure', () => {
    const plan = makePlan(inputOf());
    const names = plan.findings.map(reasonName);
    expect(names.some((name) => /\d/.test(name.replace(/Warning|Watch/, '')))).toBe(false);
  });
});
