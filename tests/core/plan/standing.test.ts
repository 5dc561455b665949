// Where a day stands at the moment judged: a plan is no go once it is too late to light.

import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { alertsSeen } from '../../builders/alerts.ts';
import { byClock, type Sketch } from '../../builders/forecast.ts';
import { inputOf } from '../../builders/plan.ts';
import { shiftOf, siteWith } from '../../builders/site.ts';
import { at, clockOf, minutes } from '../../builders/time.ts';

const DAY = '2026-03-02';
const standingAt = (clock: string) => {
  const nowMs = at(`${DAY} ${clock}`);
  const day = makePlan(inputOf({ nowMs, alerts: alertsSeen(nowMs) })).days[0];
  if (!day?.times) throw new Error('no burn');
  return { standing: day.standing, verdict: day.verdict, times: day.times };
};

describe('a day with a burn', () => {
  const { times } = standingAt('06:00');
  const hourOf = (ms: number) =>
    `${String(Math.floor((ms - at(`${DAY} 00:00`)) / minutes(60))).padStart(2, '0')}:${String(((ms - at(`${DAY} 00:00`)) / minutes(1)) % 60).padStart(2, '0')}`;

  it('may be lit until kindling would end after the last charge', () => {
    expect(times.lastChargeMs - times.lightUpByMs).toBe(minutes(20));
    expect(times.lightUpByMs).toBeGreaterThan(times.lightUpMs);
  });

  it('is go ahead of its light-up and while there is time to light, and no go after that', () => {
    const moments = [
      times.lightUpMs - minutes(1),
      times.lightUpMs,
      times.lightUpByMs - minutes(1),
      times.lightUpByMs,
      times.lastChargeMs,
    ];
    expect(moments.map((ms) => standingAt(hourOf(ms)).standing)).toEqual([
      'ahead',
      'light',
      'light',
      'charge',
      'over',
    ]);
    expect(moments.map((ms) => standingAt(hourOf(ms)).verdict === 'go')).toEqual([
      true,
      true,
      true,
      false,
      false,
    ]);
  });

  it('keeps its times after the last charge, for the crew that has a fire to cover', () => {
    expect(standingAt(hourOf(times.lastChargeMs + minutes(5))).times.coveredByMs).toBe(times.coveredByMs);
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

describe('a pause of the burn', () => {
  // Gust over its limit from 11:00 to 12:00 only: two stretches of go with a hold between them, which puts out no fire.
  const dayAt = (clock: string) => {
    const nowMs = at(`${DAY} ${clock}`);
    const weather = {
      windSpeed: byClock('windSpeed', { '00:00': '7 mph', '11:00': '13 mph', '12:00': '7 mph' }),
    };
    const plan = makePlan(inputOf({ nowMs, alerts: alertsSeen(nowMs), weather }));
    const [day] = plan.days;
    return {
      told: `${day?.standing} ${day?.verdict}`,
      standsUntilMs: plan.standsUntilMs,
      goodUntilMs: plan.goodUntilMs,
    };
  };

  it('is hold while it lasts, and too late to light when kindling would end in it', () => {
    const told = ['10:39', '10:40', '11:00', '11:59', '12:00'].map((clock) => dayAt(clock).told);
    expect(told).toEqual(['light go', 'charge hold', 'pause hold', 'pause hold', 'light go']);
  });

  it('ends every answer made before: none is served past the moment at which it turns', () => {
    const clocks = ['06:00', '09:00', '10:40', '11:30', '12:00', '14:00'];
    const until = clocks.map((clock) => dayAt(clock).standsUntilMs);
    // Light-up 07:10; 11:00 - 20 min; the pause; shift end 17:00 - 90 min - 20 min.
    expect(until).toEqual(
      ['07:00', '10:40', '11:00', '12:00', '14:00', '15:10'].map((clock, i) =>
        Math.min(at(`${DAY} ${clock}`), at(`${DAY} ${clocks[i]}`) + minutes(120)),
      ),
    );
    expect(dayAt('09:00').goodUntilMs).toBe(at(`${DAY} 10:40`));
  });
});

describe('a go that lasts through midnight', () => {
  const site = siteWith({ shifts: [shiftOf('00:00', '00:00')] });
  const dayOf = (weather: Sketch, dayCount: number) => {
    const [day] = makePlan(inputOf({ site, weather, dayCount })).days;
    return {
      last: clockOf(day?.times?.lastChargeMs ?? 0),
      causes: day?.times?.lastChargeCauses.map((f) => f.code),
    };
  };

  it('has its last charge where the go ends, and says why: midnight ends no fire', () => {
    // Wind over 15 mph from 04:00 on the next day: 04:00 - 90 min = 02:30.
    const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '2026-03-03 04:00': '16 mph' }) };
    for (const dayCount of [1, 5]) {
      expect(dayOf(weather, dayCount)).toEqual({
        last: '2026-03-03 02:30',
        causes: ['over-limit', 'burn-down-ahead'],
      });
    }
  });

  it('is followed through the next day, the same for every number of days asked for, and says that it looks no farther', () => {
    for (const dayCount of [2, 3]) {
      expect(dayOf({}, dayCount)).toEqual({ last: '2026-03-03 22:30', causes: ['plan-ends'] });
    }
    expect(dayOf({}, 1).last).toBe('2026-03-03 22:30');
  });

  it('on two shifts, the second over midnight, is no burn that ends with the second shift', () => {
    const two = siteWith({ shifts: [shiftOf('06:00', '18:00'), shiftOf('18:00', '06:00')] });
    const [day] = makePlan(inputOf({ site: two })).days;
    expect(day?.times?.lastChargeCauses.length).toBeGreaterThan(0);
    expect(clockOf(day?.times?.lastChargeMs ?? 0)).toBe('2026-03-03 22:30');
  });
});
