import { describe, expect, it } from 'vitest';
import { planEvents } from '#core/events/plan-events.ts';
import type { PlanChange } from '#core/plan/diff-plans.ts';

const PLAN = { site: 'own/a', planId: 'p1', atMs: 5, cause: 'forecast', goodUntilMs: 9 };
const verdict: PlanChange = {
  kind: 'verdict',
  date: '2026-03-03',
  from: 'go',
  to: 'hold',
  tendency: 'worse',
};
const time: PlanChange = {
  kind: 'time',
  date: '2026-03-03',
  time: 'lastCharge',
  fromMs: 1,
  toMs: 2,
  movedMin: 0,
  tendency: 'better',
};
const windows: PlanChange = {
  kind: 'windows',
  date: '2026-03-03',
  goMin: -5,
  holdMin: 5,
  stopMin: 0,
  tendency: 'worse',
};
const reason = (come: string[], gone: string[]): PlanChange => ({
  kind: 'reason',
  date: '2026-03-03',
  come,
  gone,
  tendency: 'other',
});

const kindsOf = (changes: PlanChange[]) => planEvents({ ...PLAN, changes }).map(({ kind }) => kind);

describe('events of a plan', () => {
  it('are one of each kind, and together hold every change', () => {
    const changes = [verdict, time, windows, reason(['over-limit windGust'], [])];
    const events = planEvents({ ...PLAN, changes });
    expect(events.map(({ kind }) => kind)).toEqual(['verdict-changed', 'window-changed', 'reason-changed']);
    expect(events.flatMap(({ data }) => (data as { changes: PlanChange[] }).changes)).toEqual(changes);
    expect(events[0]).toMatchObject({
      organisation: 'own',
      site: 'own/a',
      subject: 'p1',
      atMs: 5,
      validUntilMs: 9,
    });
  });

  it('of nothing that changed are none', () => {
    expect(kindsOf([])).toEqual([]);
  });

  it('tell of a forecast that became too old, and of one that is fresh again on every day', () => {
    expect(kindsOf([verdict, reason(['forecast-stale'], [])])).toEqual([
      'forecast-stale',
      'verdict-changed',
      'reason-changed',
    ]);
    expect(kindsOf([reason([], ['forecast-stale'])])).toEqual(['forecast-fresh', 'reason-changed']);
    // On one day gone and on another come: nobody may take it for fresh.
    expect(kindsOf([reason([], ['forecast-stale']), reason(['forecast-stale'], [])])).toEqual([
      'forecast-stale',
      'reason-changed',
    ]);
  });
});
