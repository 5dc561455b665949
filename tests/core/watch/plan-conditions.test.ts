import { describe, expect, it } from 'vitest';
import { DAY_MS, MINUTE_MS } from '#core/units/time.ts';
import type { ConditionCode } from '#core/watch/condition.ts';
import { planConditions } from '#core/watch/plan-conditions.ts';
import { byClock } from '../../builders/forecast.ts';
import type { InputText } from '../../builders/plan.ts';
import { EAST_SCHOOL, siteWith } from '../../builders/site.ts';
import { clock, the } from '../../builders/watch.ts';
import { type WatchText, watchContextOf } from '../../builders/watch-input.ts';

/** Told a plan in fair weather (light-up 07:10, last charge 15:30, covered by 17:00); what is planned now is another. */
const TOLD = watchContextOf({ now: '06:00' }).briefed;
const planned = (weather: InputText['weather'], text: WatchText = {}) =>
  planConditions(
    watchContextOf({ now: '10:00', briefed: TOLD, planned: { weather: weather ?? {} }, ...text }),
  );
const wind = (table: Readonly<Record<string, string>>) => ({ windSpeed: byClock('windSpeed', table) });
const truths = (conditions: ReturnType<typeof planned>, code: ConditionCode) =>
  conditions.filter((c) => c.code === code).map((c) => (c.subject ? `${c.subject} ${c.truth}` : c.truth));

describe('a plan that is as it was told', () => {
  it('is no news', () => {
    const same = planned({});
    expect(same.filter((c) => c.truth !== 'false')).toEqual([]);
  });
});

describe('a plan that has changed since it was told', () => {
  // Wind too strong from 15:00: covered by 15:00, last charge 13:30.
  const sooner = planned(wind({ '00:00': '7 mph', '15:00': '16 mph' }));

  it('tells each of the three times that moved by half an hour or more, with both', () => {
    expect(truths(sooner, 'plan-moved')).toEqual(['lightUp false', 'lastCharge true', 'coveredBy true']);
    expect(the(sooner, 'plan-moved', 'lastCharge').figures).toMatchObject({
      what: 'lastCharge',
      atMs: clock('13:30'),
      wasMs: clock('15:30'),
    });
  });

  it('is worse where half an hour ahead is worse, as advice until it is there', () => {
    expect(the(sooner, 'plan-worse')).toMatchObject({
      truth: 'true',
      verdict: 'go',
      figures: { atMs: clock('13:30'), what: 'hold' },
    });
    const there = planned(wind({ '00:00': '7 mph', '10:00': '13 mph' }));
    expect(the(there, 'plan-worse')).toMatchObject({ truth: 'true', verdict: 'hold' });
  });

  it('of less than half an hour is no news, and back within twenty minutes no news any more', () => {
    const moved = (min: number, before: WatchText['before'] = []) => {
      const site = siteWith({
        burn: { warmUpMin: 10, kindlingMin: 20, burnDownMin: 60 + min, coverMin: 30, shortestRunMin: 120 },
      });
      return planned({}, { planned: { site }, before });
    };
    expect(truths(moved(29), 'plan-moved')[1]).toBe('lastCharge false');
    expect(the(moved(29), 'plan-worse').truth).toBe('false');
    const far = moved(30);
    expect(truths(far, 'plan-moved')[1]).toBe('lastCharge true');
    expect(the(far, 'plan-worse').truth).toBe('true');
    expect(truths(moved(20, far), 'plan-moved')[1]).toBe('lastCharge true');
    expect(truths(moved(19, far), 'plan-moved')[1]).toBe('lastCharge false');
  });

  it('to one without a burn tells the verdict, and that the times are gone', () => {
    const none = planned(wind({ '00:00': '20 mph' }));
    expect(the(none, 'plan-verdict')).toMatchObject({
      truth: 'true',
      verdict: 'stop',
      figures: { what: 'stop' },
    });
    expect(the(none, 'plan-moved', 'lastCharge')).toMatchObject({
      truth: 'true',
      verdict: 'stop',
      figures: { atMs: null, wasMs: clock('15:30') },
    });
  });

  it('of tomorrow counts once the work of today is over, where the crew was told of tomorrow', () => {
    const twoDays = { dayCount: 2 };
    const evening = watchContextOf({ now: '16:00', planned: twoDays }).briefed;
    // Too windy all day tomorrow, in a forecast that comes in the evening.
    const windSpeed = byClock('windSpeed', { '00:00': '20 mph' });
    const told = (now: string, text: WatchText = {}) =>
      the(
        planned(
          {},
          { now, burn: null, briefed: evening, planned: { ...twoDays, weather: { windSpeed } }, ...text },
        ),
        'plan-verdict',
      );
    expect(told('20:00')).toMatchObject({
      truth: 'true',
      verdict: 'stop',
      validUntilMs: clock('15:10') + DAY_MS,
      figures: { what: 'stop', atMs: null, wasMs: clock('07:10') + DAY_MS },
    });
    // While somebody works today, or nothing was told of tomorrow, it is today that counts.
    expect(told('16:59').figures.wasMs).toBe(clock('07:10'));
    expect(told('20:00', { briefed: TOLD }).figures.wasMs).toBe(clock('07:10'));
  });

  it('to a better one is advice', () => {
    const bad = watchContextOf({ now: '06:00', planned: { weather: wind({ '00:00': '20 mph' }) } }).briefed;
    const better = planned({}, { briefed: bad, burn: null });
    expect(the(better, 'plan-verdict')).toMatchObject({ truth: 'true', verdict: 'go' });
    expect(the(better, 'plan-worse').truth).toBe('false');
    expect(the(better, 'plan-moved', 'lightUp')).toMatchObject({ truth: 'true', verdict: 'go' });
  });

  it('by a second fire that day is none of the open burn', () => {
    const second = planned(wind({ '00:00': '7 mph', '09:30': '20 mph', '11:00': '7 mph' }));
    expect(truths(second, 'plan-moved')).toEqual(['lightUp false', 'lastCharge false', 'coveredBy false']);
  });

  it('cannot be told where nothing was told, or no plan is there: no reason to hold by itself', () => {
    for (const text of [{ briefed: null }, { plan: null }]) {
      const unknown = planned({}, text).filter((c) => c.code.startsWith('plan-'));
      expect(unknown.map((c) => [c.truth, c.verdict])).toEqual(Array(5).fill(['unknown', 'go']));
    }
  });
});

describe('a forecast wind shift', () => {
  const turning = (at: string) => ({
    windDirection: byClock('windDirection', { '00:00': '180 deg', [at]: '270 deg' }),
  });

  it('within the shift is told ahead, with both directions', () => {
    expect(the(planned(turning('14:00')), 'wind-shift-ahead')).toMatchObject({
      truth: 'true',
      verdict: 'go',
      figures: { wasFromDeg: 180, windFromDeg: 270, atMs: clock('14:00'), place: null },
    });
  });

  it('after the shift, or past, is none', () => {
    expect(the(planned(turning('18:00')), 'wind-shift-ahead').truth).toBe('false');
    expect(the(planned(turning('09:00')), 'wind-shift-ahead').truth).toBe('false');
  });

  it('that brings smoke to a place names it, and is a hold when the plan holds for it', () => {
    const site = siteWith({ protected: [EAST_SCHOOL] });
    const ahead = (now: string) =>
      the(
        planned(turning('14:00'), { now, planned: { site, weather: turning('14:00') } }),
        'wind-shift-ahead',
      );
    expect(ahead('12:00')).toMatchObject({ truth: 'true', verdict: 'go', figures: { place: 'east school' } });
    expect(ahead('12:30')).toMatchObject({ truth: 'true', verdict: 'hold' });
  });

  it('without a plan is unknown', () => {
    expect(the(planned({}, { plan: null }), 'wind-shift-ahead').truth).toBe('unknown');
  });
});

describe('a forecast', () => {
  const stale = (nowMs: number) => {
    const context = watchContextOf({ now: '06:00' });
    return the(planConditions({ ...context, nowMs }), 'forecast-stale');
  };

  it('is stale from the age that the site allows (840 min), whatever plan was made of it', () => {
    // Issued at 05:00.
    expect(stale(clock('18:59')).truth).toBe('false');
    expect(stale(clock('19:00'))).toMatchObject({ truth: 'true', verdict: 'hold' });
  });

  it('from the future is no better, but for a clock that is a little wrong', () => {
    expect(stale(clock('04:50')).truth).toBe('false');
    expect(stale(clock('04:49')).truth).toBe('true');
  });

  const blind = (text: WatchText, weather: InputText['weather'] = {}) =>
    planned(weather, { ...text, planned: { alerts: null, ...text.planned, weather } }).filter((c) =>
      c.code.startsWith('plan-'),
    );

  it.each<[string, WatchText]>([
    ['is stale', { now: '19:30', planned: { nowMs: clock('06:00') } }],
    ['comes without alerts', { alerts: null }],
  ])('that %s says nothing of a fire that burns; before it is lit, what was told is no more', (_, text) => {
    expect(blind(text).map((c) => c.truth)).toEqual(Array(5).fill('unknown'));
    const before = the(blind({ ...text, burn: null }), 'plan-verdict');
    // That one answer failed is not told at once.
    expect(before).toMatchObject({ truth: 'true', holdsForMs: 5 * MINUTE_MS });
  });

  it('that comes without alerts tells of a stop all the same, at once', () => {
    const storm = wind({ '00:00': '7 mph', '09:00': '20 mph' });
    const worse = the(blind({ alerts: null }, storm), 'plan-worse');
    expect(worse).toMatchObject({ truth: 'true', verdict: 'stop', holdsForMs: 0 });
  });

  it('that is not there, or undated, is stale', () => {
    expect(the(planned({}, { plan: null }), 'forecast-stale').truth).toBe('true');
    const { plan } = watchContextOf();
    const undated = plan && { ...plan, forecast: { ...plan.forecast, issuedAtMs: null } };
    expect(the(planned({}, { plan: undated }), 'forecast-stale').truth).toBe('true');
  });
});
