// Where a day stands at the moment judged: a plan is no go once it is too late to light.

import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { alertsSeen } from '../../builders/alerts.ts';
import { inputOf } from '../../builders/plan.ts';
import { siteWith } from '../../builders/site.ts';
import { at, minutes } from '../../builders/time.ts';

const DAY = '2026-03-02';
const standingAt = (clock: string) => {
  const nowMs = at(`${DAY} ${clock}`);
  const day = makePlan(inputOf({ nowMs, alerts: alertsSeen(nowMs) })).days[0];
  if (!day?.times) throw new Error('no burn');
  return { standing: day.standing, verdict: day.verdict, times: day.times };
};

describe('a day with a burn', () => {
  const { times } = standingAt('06:00');
  const clockOf = (ms: number) =>
    `${String(Math.floor((ms - at(`${DAY} 00:00`)) / minutes(60))).padStart(2, '0')}:${String(((ms - at(`${DAY} 00:00`)) / minutes(1)) % 60).padStart(2, '0')}`;

  it('may be lit until kindling would end after the last charge', () => {
    expect(times.lastChargeMs - times.lightUpByMs).toBe(minutes(20));
    expect(times.lightUpByMs).toBeGreaterThan(times.lightUpMs);
  });

  it('is go ahead of its light-up and while there is time to light, and no go after that', () => {
    const moments = [
      times.lightUpMs - minutes(1),
      times.lightUpMs,
      times.lightUpByMs,
      times.lightUpByMs + minutes(1),
      times.lastChargeMs,
    ];
    expect(moments.map((ms) => standingAt(clockOf(ms)).standing)).toEqual([
      'ahead',
      'light',
      'light',
      'charge',
      'over',
    ]);
    expect(moments.map((ms) => standingAt(clockOf(ms)).verdict === 'go')).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
  });

  it('keeps its times after the last charge, for the crew that has a fire to cover', () => {
    expect(standingAt(clockOf(times.lastChargeMs + minutes(5))).times.coveredByMs).toBe(times.coveredByMs);
  });
});

describe('a go in which kindling does not end', () => {
  it('is too short, whatever the site calls worth lighting', () => {
    const site = siteWith({
      burn: { warmUpMin: 0, kindlingMin: 720, burnDownMin: 0, coverMin: 0, shortestRunMin: 0 },
    });
    const plan = makePlan(inputOf({ site }));
    expect(plan.windows.some((w) => w.verdict === 'go')).toBe(false);
    expect(plan.findings.some((f) => f.code === 'short-run')).toBe(true);
  });
});
