import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { withinLimits } from '#core/rules/within-limits.ts';
import { one, told } from '../../builders/findings.ts';
import { byClock } from '../../builders/forecast.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { contextOf, type InputText, inputOf, verdictAt } from '../../builders/plan.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const foundFor = (text: InputText) => withinLimits(contextOf(inputOf(text)));
const noLow = limitSet([
  limitOf('windSpeed', { high: { hold: '12 mph', stop: '15 mph' }, source: 'permit 26-014' }),
]);

describe('limits become findings', () => {
  it('a run of hours over a bound is one finding with the figures of its worst hour', () => {
    const weather = {
      windSpeed: byClock('windSpeed', {
        '00:00': '7 mph',
        '12:00': '13 mph',
        '13:00': '14 mph',
        '14:00': '12.5 mph',
        '15:00': '7 mph',
      }),
    };
    const findings = foundFor({ weather, limits: noLow });
    expect(told(findings, DATE).filter((t) => t.includes('over'))).toEqual(['hold over-limit 12:00-15:00']);
    const { figures } = one(findings, 'over-limit', at(`${DATE} 12:00`));
    expect(figures).toMatchObject({
      element: 'windSpeed',
      side: 'atMost',
      boundUnit: 'mph',
      source: 'permit 26-014',
      derived: false,
      atMs: at(`${DATE} 13:00`),
    });
    expect(figures.value).toBeCloseTo(14 * 0.44704, 9);
    expect(figures.room).toBeCloseTo(-2 * 0.44704, 9);
    expect(figures.roomFraction).toBeCloseTo(-2 / 12, 9);
  });

  it('a run that grows from hold to stop is two findings end to end', () => {
    const weather = {
      windSpeed: byClock('windSpeed', {
        '00:00': '7 mph',
        '12:00': '13 mph',
        '14:00': '20 mph',
        '16:00': '7 mph',
      }),
    };
    expect(told(foundFor({ weather, limits: noLow }), DATE).filter((t) => t.includes('over'))).toEqual([
      'hold over-limit 12:00-14:00',
      'stop over-limit 14:00-16:00',
    ]);
  });

  it('a value under a low bound is under-limit', () => {
    const weather = {
      relativeHumidity: byClock('relativeHumidity', {
        '00:00': '45 %',
        '13:00': '18 %',
        '15:00': '28 %',
        '16:00': '40 %',
      }),
    };
    expect(told(foundFor({ weather }), DATE).filter((t) => t.includes('under'))).toEqual([
      'stop under-limit 13:00-15:00',
      'hold under-limit 15:00-16:00',
    ]);
  });

  it('a derived value says so', () => {
    const limits = limitSet([limitOf('ventilationRate', { low: { hold: '90000 kt-ft' } })]);
    expect(one(foundFor({ limits }), 'under-limit').figures.derived).toBe(true);
  });
});

describe('within-limits', () => {
  it('covers exactly the hours in which every limit is met', () => {
    const weather = {
      windSpeed: byClock('windSpeed', { '00:00': '7 mph', '15:00': '13 mph', '16:00': '7 mph' }),
      relativeHumidity: byClock('relativeHumidity', {
        '00:00': '90 %',
        '08:00': '45 %',
        '14:00': '25 %',
        '16:00': '45 %',
      }),
    };
    expect(told(foundFor({ weather }), DATE).filter((t) => t.startsWith('go'))).toEqual([
      'go within-limits 2026-03-01 16:00-14:00',
      'go within-limits 16:00-2026-03-03 14:00',
    ]);
  });

  it('is not said of an hour in which one limit has no value', () => {
    const weather = {
      mixingHeight: byClock('mixingHeight', { '00:00': '4000 ft', '11:00': null, '12:00': '4000 ft' }),
    };
    expect(told(foundFor({ weather }), DATE).filter((t) => t.startsWith('go'))).toEqual([
      'go within-limits 2026-03-01 12:00-11:00',
      'go within-limits 12:00-2026-03-03 11:00',
    ]);
  });

  it('is never said where there are no limits at all', () => {
    expect(foundFor({ limits: limitSet([]) })).toEqual([]);
  });
});

describe('limits by day and by night', () => {
  // Sunrise and sunset of the plain site on that day lie near 06:33 and 17:57; only the order matters here.
  const dayNight = limitSet([
    limitOf('dispersionIndex', { when: 'day', low: { hold: '40' } }),
    limitOf('dispersionIndex', { when: 'night', low: { hold: '8' } }),
  ]);
  const index = (value: number) =>
    makePlan(inputOf({ weather: { dispersionIndex: value }, limits: dayNight }));

  it('judge the same value by the bound of the hour: 20 is enough by night and not by day', () => {
    const findings = index(20).findings.filter((f) => f.code === 'under-limit' || f.code === 'within-limits');
    const [night] = findings.filter((f) => f.code === 'within-limits' && f.toMs > at(`${DATE} 00:00`));
    const [day] = findings.filter((f) => f.code === 'under-limit' && f.toMs > at(`${DATE} 00:00`));
    expect(night?.toMs).toBe(day?.fromMs);
    expect(day?.fromMs).toBeGreaterThan(at(`${DATE} 06:00`));
    expect(day?.toMs).toBeLessThan(at(`${DATE} 18:30`));
  });

  it('5 is enough for neither, 50 for both', () => {
    expect(index(5).findings.some((f) => f.code === 'within-limits')).toBe(false);
    expect(index(50).findings.some((f) => f.code === 'under-limit')).toBe(false);
  });

  it('a site with limits for the night alone has nothing judged by day, which is not go', () => {
    const limits = limitSet([limitOf('dispersionIndex', { when: 'night', low: { hold: '8' } })]);
    expect(
      verdictAt(makePlan(inputOf({ weather: { dispersionIndex: 50 }, limits })), at(`${DATE} 12:00`)),
    ).toBe('hold');
  });

  it('a site with limits for the day alone has nothing judged by night, which is not go', () => {
    const limits = limitSet([limitOf('dispersionIndex', { when: 'day', low: { hold: '40' } })]);
    const base = inputOf({ weather: { dispersionIndex: 50 }, limits });
    const site = {
      ...base.site,
      shifts: [{ days: ['mon', 'tue'] as const, from: '18:30', to: '06:00', holidays: [] }],
    };
    expect(verdictAt(makePlan({ ...base, site }), at(`${DATE} 22:00`))).toBe('hold');
  });
});
