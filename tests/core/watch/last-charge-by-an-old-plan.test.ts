import { describe, expect, it } from 'vitest';
import type { DaySummary } from '#core/plan/plan-summary.ts';
import { chargeConditions } from '#core/watch/charge-conditions.ts';
import { coverConditions } from '#core/watch/cover-conditions.ts';
import { makeCondition } from '#core/watch/make-condition.ts';
import type { BriefedPlan } from '#core/watch/watch-context.ts';
import { alertsSeen } from '../../builders/alerts.ts';
import { clock, the } from '../../builders/watch.ts';
import { OPEN_BURN, type WatchText, watchContextOf } from '../../builders/watch-input.ts';

/** The last charge as it was told, or as the evaluation before knew it. */
const toldAt = (lastCharge: string): BriefedPlan | null => {
  const told = watchContextOf().briefed;
  const days = told?.days.map((d): DaySummary => {
    return { ...d, times: d.times && { ...d.times, lastCharge: clock(lastCharge) } };
  });
  return told && { ...told, days: days ?? [] };
};
const knownAt = (lastCharge: string) => [
  makeCondition('last-charge-due', {
    truth: 'false',
    verdict: 'hold',
    basis: 'forecast',
    asOfMs: clock('05:00'),
    validUntilMs: clock('23:00'),
    figures: { what: 'lastCharge', atMs: clock(lastCharge) },
  }),
];

// Issued at 05:00, and too old from 19:00 on (840 min); the plan that is made of it then has no go in it.
const stalePlan = () => {
  const { plan } = watchContextOf({ now: '19:10', planned: { weather: { windSpeed: 20 } } });
  return plan && { ...plan, forecast: { ...plan.forecast, issuedAtMs: clock('05:00') } };
};
const at = (now: string, text: WatchText) => {
  const context = watchContextOf({ now, plan: stalePlan(), ...text });
  return [...chargeConditions(context, OPEN_BURN), ...coverConditions(context, OPEN_BURN)];
};
const truths = (now: string, text: WatchText) => {
  const conditions = at(now, text);
  return [the(conditions, 'last-charge-soon').truth, the(conditions, 'last-charge-due').truth];
};

describe('the last charge when the forecast has become too old', () => {
  it.each([
    ['19:10', ['false', 'false']],
    ['19:14', ['false', 'false']],
    ['19:15', ['true', 'false']],
    ['19:44', ['true', 'false']],
    ['19:45', ['false', 'true']],
    ['20:30', ['false', 'true']],
  ])('is told by the plan that was told: at %s soon and due are %s', (now, expected) => {
    expect(truths(now, { briefed: toldAt('19:45') })).toEqual(expected);
  });

  it('says at both moments that the forecast is old, and when the charge is', () => {
    const figures = { what: 'lastChargeOld', atMs: clock('19:45') };
    const text = { briefed: toldAt('19:45') };
    expect(the(at('19:15', text), 'last-charge-soon').figures).toMatchObject(figures);
    expect(the(at('19:45', text), 'last-charge-due').figures).toMatchObject(figures);
  });

  it('is what the last good plan said where nothing was told, or where that is earlier', () => {
    const before = knownAt('19:45');
    expect(truths('19:15', { briefed: null, before })).toEqual(['true', 'false']);
    expect(truths('19:45', { briefed: null, before })).toEqual(['false', 'true']);
    expect(truths('19:15', { briefed: toldAt('20:30'), before })).toEqual(['true', 'false']);
    expect(truths('19:15', { briefed: toldAt('19:15'), before })).toEqual(['false', 'true']);
  });

  it('stays due though a later one had been told', () => {
    expect(truths('19:10', { briefed: toldAt('20:30'), before: knownAt('10:00') })).toEqual([
      'false',
      'true',
    ]);
  });

  it('is not that of a fire before', () => {
    expect(truths('19:15', { briefed: null, before: knownAt('07:30') })).toEqual(['unknown', 'unknown']);
  });

  it('without any plan is told all the same; where none ever was, nobody can say', () => {
    const told = { briefed: toldAt('15:30'), plan: null };
    expect(truths('14:59', told)).toEqual(['false', 'false']);
    expect(truths('15:00', told)).toEqual(['true', 'false']);
    expect(truths('15:30', told)).toEqual(['false', 'true']);
    expect(truths('15:30', { briefed: null, plan: null })).toEqual(['unknown', 'unknown']);
  });

  it('of a plan that only lacks the list of alerts is no old forecast', () => {
    const text = { plan: watchContextOf().plan, alerts: alertsSeen(clock('08:00')) };
    const conditions = at('15:10', { ...text, briefed: toldAt('15:30') });
    expect(the(conditions, 'last-charge-soon')).toMatchObject({
      truth: 'true',
      figures: { what: 'lastChargeTold', atMs: clock('15:30') },
    });
  });

  it('gives the covering its time too', () => {
    // One hour to burn down after the last charge.
    const text = { briefed: toldAt('19:15') };
    expect(the(at('20:14', text), 'cover-due').truth).toBe('false');
    expect(the(at('20:15', text), 'cover-due').truth).toBe('true');
  });
});
