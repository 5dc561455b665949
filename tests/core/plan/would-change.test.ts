import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import type { Move } from '#core/plan/plan.ts';
import { inUnit } from '#core/units/quantity.ts';
import { alertOf, alertsSeen } from '../../builders/alerts.ts';
import { byClock, core } from '../../builders/forecast.ts';
import { limitOf, limitSet, PLAIN_LIMITS } from '../../builders/limits.ts';
import { firstDay, type InputText, inputOf } from '../../builders/plan.ts';
import { siteWith } from '../../builders/site.ts';
import { at, clockOf } from '../../builders/time.ts';

const DATE = '2026-03-02';
const changeFor = (text: InputText) => firstDay(makePlan(inputOf(text))).wouldChange;
const told = (moves: readonly Move[], unit: string) =>
  moves.map((m) => `${Math.round(inUnit(m.moveBy, unit) * 100) / 100} ${unit} to ${m.towards}`);
const wind = limitSet([limitOf('windSpeed', { high: { hold: '12 mph', stop: '15 mph' } })]);

describe('what would end a go', () => {
  // Highest wind of the run 07:10-15:30 is 10 mph at 13:00; 12 - 10 = 2.
  it('is the move of the tightest value to its bound', () => {
    const weather = {
      windSpeed: byClock('windSpeed', { '00:00': '7 mph', '13:00': '10 mph', '14:00': '8 mph' }),
    };
    const change = changeFor({ limits: wind, weather });
    expect(told(change.moves, 'mph')).toEqual(['2 mph to hold']);
    expect(change.barredBy).toEqual([]);
  });

  it('is a stop where the limit has no hold', () => {
    const limits = limitSet([limitOf('windSpeed', { high: { stop: '15 mph' } })]);
    expect(told(changeFor({ limits }).moves, 'mph')).toEqual(['8 mph to stop']);
  });

  // The pause has 13 mph, over the bound already; the go of 07:10-11:00 and 12:00-15:30 has 7 mph: 12 - 7 = 5.
  it('is told of the go itself, not of a pause in which the limit is broken already', () => {
    const weather = {
      windSpeed: byClock('windSpeed', { '00:00': '7 mph', '11:00': '13 mph', '12:00': '7 mph' }),
    };
    const day = firstDay(makePlan(inputOf({ limits: wind, weather })));
    expect(day.times?.pauses.length).toBe(1);
    expect(day.tightest?.room).toBeGreaterThan(0);
    expect(told(day.wouldChange.moves, 'mph')).toEqual(['5 mph to hold']);
  });
});

describe('what a day without a go needs', () => {
  // 13 mph all day, 12.5 in the best hour 10:00; 12.5 - 12 = 0.5 down.
  it('is the move of its nearest hour', () => {
    const weather = {
      windSpeed: byClock('windSpeed', { '00:00': '14 mph', '10:00': '12.5 mph', '11:00': '13 mph' }),
    };
    const { moves } = changeFor({ limits: wind, weather });
    expect(told(moves, 'mph')).toEqual(['0.5 mph to go']);
    expect(moves.map((m) => clockOf(makePlan(inputOf()).series.startMs + m.score.hour * 3_600_000))).toEqual([
      `${DATE} 10:00`,
    ]);
  });

  // A stop at 18 mph must come down to the hold bound: 18 - 12 = 6.
  it('counts from a stop all the way to go', () => {
    expect(
      told(changeFor({ limits: wind, weather: { windSpeed: core('windSpeed', '18 mph') } }).moves, 'mph'),
    ).toEqual(['6 mph to go']);
  });

  it('is all the moves that the hour needs', () => {
    const weather = { windSpeed: core('windSpeed', '13 mph'), relativeHumidity: 25 };
    const { moves } = changeFor({ weather });
    expect(moves.map((m) => m.score.limitIndex)).toEqual([0, 1]);
    expect(told(moves.slice(1), '%')).toEqual(['5 % to go']);
  });

  it('is never a move of a limit for the night, on a day worked by day', () => {
    const limits = limitSet([
      limitOf('dispersionIndex', { when: 'day', low: { hold: '40' } }),
      limitOf('dispersionIndex', { when: 'night', low: { hold: '60' } }),
    ]);
    const site = siteWith({ daylight: { lightUpAfterSunriseMin: 0, outBeforeSunsetMin: 0 } });
    const { moves } = changeFor({ site, limits, weather: { dispersionIndex: 30 } });
    expect(moves.map((m) => m.score.limitIndex)).toEqual([0]);
  });

  it('is nothing of values where nobody can say', () => {
    const change = changeFor({ weather: { mixingHeight: null } });
    expect(change.moves).toEqual([]);
    expect(change.barredBy.map((f) => f.code)).toContain('element-missing');
  });

  it('names what bars the day beside the values', () => {
    const alerts = alertsSeen(at(`${DATE} 06:00`), [alertOf('Red Flag Warning', null, null)]);
    expect(changeFor({ alerts }).barredBy.map((f) => f.code)).toEqual(['official-alert']);
  });
});

describe('the next change', () => {
  const weather = { windSpeed: byClock('windSpeed', { '00:00': '7 mph', '13:00': '16 mph' }) };

  it('of a day with a go is the end of the go, counted from the light-up or from now', () => {
    for (const now of ['06:00', '09:00']) {
      const next = changeFor({ weather, nowMs: at(`${DATE} ${now}`) }).next;
      expect([clockOf(next?.atMs ?? 0), next?.from, next?.to]).toEqual([`${DATE} 11:30`, 'go', 'hold']);
    }
  });

  it('after the go is what follows, never something past', () => {
    const next = changeFor({ weather, nowMs: at(`${DATE} 12:00`) }).next;
    expect([clockOf(next?.atMs ?? 0), next?.from, next?.to]).toEqual([`${DATE} 13:00`, 'hold', 'stop']);
  });

  it('after the day is none', () => {
    expect(changeFor({ nowMs: at('2026-03-03 06:00') }).next).toBeNull();
  });

  it('comes with its findings', () => {
    const limits = {
      ...PLAIN_LIMITS,
      clock: [{ lightFrom: null, lastChargeBy: '11:00', outBy: null, source: 'permit' }],
    };
    expect(changeFor({ limits }).next?.findings.map((f) => f.code)).toContain('clock-charge');
  });
});
