import { describe, expect, it } from 'vitest';
import { findAll } from '#core/rules/all.ts';
import { one, told } from '../../builders/findings.ts';
import { limitSet } from '../../builders/limits.ts';
import { codesOf, contextOf, inputOf } from '../../builders/plan.ts';
import { shiftOf, siteWith } from '../../builders/site.ts';

const allDay = siteWith({ shifts: [shiftOf('00:00', '00:00')] });

describe('what no rule has spoken of', () => {
  it('is a hold because nobody can say: silence is never go', () => {
    const findings = findAll(contextOf(inputOf({ site: allDay, limits: limitSet([]) })));
    expect(told(findings, '2026-03-02').filter((t) => t.includes('not-judged'))[0]).toMatch(
      /^hold not-judged/,
    );
    expect(one(findings, 'not-judged').unknown).toBe(true);
  });

  it('is nothing in fair weather', () => {
    expect(codesOf(findAll(contextOf(inputOf())))).toEqual([
      'burn-down-ahead',
      'off-shift',
      'warming-up',
      'within-limits',
    ]);
  });
});

describe('the findings', () => {
  it('are never empty or reversed, and never reach beyond a span without a number', () => {
    for (const f of findAll(contextOf(inputOf({ dayCount: 4 })))) {
      expect(f.toMs, f.code).toBeGreaterThan(f.fromMs);
      expect(Number.isFinite(f.fromMs) && Number.isFinite(f.toMs), f.code).toBe(true);
    }
  });
});
