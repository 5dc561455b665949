import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { appliesIn, tightestIn } from '#core/plan/tightest-in.ts';
import { byClock } from '../../builders/forecast.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { contextOf, firstDay, inputOf } from '../../builders/plan.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const dayNight = limitSet([
  limitOf('dispersionIndex', { when: 'day', low: { hold: '40' } }),
  limitOf('dispersionIndex', { when: 'night', low: { hold: '8' } }),
]);
const context = contextOf(inputOf({ limits: dayNight, weather: { dispersionIndex: 50 } }));
const hourOf = (clock: string) => (at(`${DATE} ${clock}`) - context.series.startMs) / 3_600_000;

describe('a limit for day or night', () => {
  it('applies in hours of its own, and in the hours of sunrise both do', () => {
    const applies = (clock: string) => [0, 1].filter((limit) => appliesIn(context, limit, hourOf(clock)));
    // Sunrise at the plain site on that day is near 06:33.
    expect([applies('03:00'), applies('06:00'), applies('12:00')]).toEqual([[1], [0, 1], [0]]);
  });

  it('is the tightest only where it applies', () => {
    const span = (from: string, to: string) => [{ fromMs: at(`${DATE} ${from}`), toMs: at(`${DATE} ${to}`) }];
    expect(tightestIn(context, span('01:00', '05:00'))).toMatchObject({ limitIndex: 1, room: 42 });
    expect(tightestIn(context, span('09:00', '15:00'))).toMatchObject({ limitIndex: 0, room: 10 });
  });
});

describe('the tightest limit over spans', () => {
  it('counts every hour that a span touches, and no other', () => {
    const limits = limitSet([limitOf('windSpeed', { high: { hold: '12 mph' } })]);
    const weather = {
      windSpeed: byClock('windSpeed', { '00:00': '7 mph', '10:00': '11 mph', '11:00': '8 mph' }),
    };
    const scored = contextOf(inputOf({ limits, weather }));
    const hour = (clock: string) => (at(`${DATE} ${clock}`) - scored.series.startMs) / 3_600_000;
    const tightest = (from: string, to: string) =>
      tightestIn(scored, [{ fromMs: at(`${DATE} ${from}`), toMs: at(`${DATE} ${to}`) }])?.hour;
    expect(tightest('09:00', '10:01')).toBe(hour('10:00'));
    expect(tightest('10:59', '12:00')).toBe(hour('10:00'));
    expect(tightest('11:00', '13:00')).toBe(hour('11:00'));
    expect(tightest('09:00', '10:00')).toBe(hour('09:00'));
  });

  it('is none where nothing has a value', () => {
    expect(firstDay(makePlan(inputOf({ limits: dayNight }))).tightest).toBeNull();
    expect(tightestIn(context, [])).toBeNull();
  });
});
