import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { forecastQuality } from '#core/rules/forecast-quality.ts';
import { one, told } from '../../builders/findings.ts';
import { core, FAIR, forecastOf, seriesOf } from '../../builders/forecast.ts';
import { limitOf, limitSet, PLAIN_LIMITS } from '../../builders/limits.ts';
import { codesOf, contextOf, hasGo, type InputText, inputOf, verdictAt } from '../../builders/plan.ts';
import { EAST_SCHOOL, siteWith } from '../../builders/site.ts';
import { at, minutes } from '../../builders/time.ts';

const DATE = '2026-03-02';
const NOW = at(`${DATE} 06:00`);
const foundFor = (text: InputText) => forecastQuality(contextOf(inputOf(text)));
const aged = (ageMs: number, more: InputText = {}) => {
  const input = inputOf({ nowMs: NOW, ...more });
  return { ...input, forecast: { ...input.forecast, issuedAtMs: NOW - ageMs } };
};
const codesAt = (ageMs: number): string[] => codesOf(forecastQuality(contextOf(aged(ageMs))));

// Our rule: up to 8 h normal, 8 to 14 h warned, beyond 14 h hold.
describe('the age of a forecast, from its own update time', () => {
  it.each<[string, number, string[]]>([
    ['fresh', minutes(60), []],
    ['a minute under 8 h', minutes(479), []],
    ['8 h', minutes(480), ['forecast-aging']],
    ['a minute under 14 h', minutes(839), ['forecast-aging']],
    ['a millisecond under 14 h', minutes(840) - 1, ['forecast-aging']],
    ['14 h', minutes(840), ['forecast-stale']],
    ['five days', minutes(5 * 1440), ['forecast-stale']],
  ])('%s', (_, ageMs, codes) => {
    expect(codesAt(ageMs)).toEqual(codes);
  });

  it('counts from the update time, however lately it was fetched (weather-gov/api issues 71 and 177)', () => {
    const input = aged(minutes(900));
    const fetched = { ...input, forecast: { ...input.forecast, fetchedAtMs: NOW } };
    expect(hasGo(makePlan(fetched))).toBe(false);
  });

  it('warned is still go, stale is not', () => {
    expect(hasGo(makePlan(aged(minutes(600))))).toBe(true);
    expect(hasGo(makePlan(aged(minutes(840))))).toBe(false);
    expect(one(forecastQuality(contextOf(aged(minutes(900)))), 'forecast-stale')).toMatchObject({
      verdict: 'hold',
      unknown: true,
      figures: { ageMin: 900, holdAfterMin: 840 },
    });
  });

  it('is measured by what the site says', () => {
    const site = siteWith({ quality: { warnAfterMin: 60, holdAfterMin: 120, alertsHoldAfterMin: 120 } });
    expect(codesOf(forecastQuality(contextOf(aged(minutes(61), { site }))))).toEqual(['forecast-aging']);
    expect(codesOf(forecastQuality(contextOf(aged(minutes(120), { site }))))).toEqual(['forecast-stale']);
  });
});

describe('a stamp from the future', () => {
  it.each<[string, number, string[]]>([
    ['of a minute is a clock that runs ahead, and told', -minutes(1), ['forecast-ahead']],
    ['of ten minutes too', -minutes(10), ['forecast-ahead']],
    ['of more is a hold', -minutes(10) - 1, ['forecast-future']],
    ['of three days is a hold', -minutes(4320), ['forecast-future']],
  ])('%s', (_, ageMs, codes) => {
    expect(codesAt(ageMs)).toEqual(codes);
    expect(hasGo(makePlan(aged(ageMs)))).toBe(codes[0] === 'forecast-ahead');
  });

  it('that cannot be read is a hold', () => {
    const input = inputOf();
    const undated = { ...input, forecast: { ...input.forecast, issuedAtMs: null } };
    expect(codesOf(forecastQuality(contextOf(undated)))).toEqual(['forecast-undated']);
    expect(hasGo(makePlan(undated))).toBe(false);
  });
});

describe('an element that a limit needs', () => {
  it('and that ends before the others is missing from there on, never extended (recorded grid OAX 59,58: mixing height ends at 51 h)', () => {
    const end = at(`${DATE} 13:00`);
    const weather = { mixingHeight: (ms: number) => (ms < end ? core('mixingHeight', '4000 ft') : null) };
    const findings = foundFor({ weather });
    expect(told(findings, DATE)).toEqual(['hold element-missing 13:00-later']);
    expect(one(findings, 'element-missing').figures).toEqual({ element: 'mixingHeight', why: 'gap' });
    expect(verdictAt(makePlan(inputOf({ weather })), end)).toBe('hold');
  });

  it('and that is absent or empty is missing all along (item 19)', () => {
    expect(told(foundFor({ weather: { mixingHeight: null } }), DATE)).toEqual([
      'hold element-missing 2026-03-01 00:00-later',
    ]);
  });

  it('is missing for an hour in the middle only there', () => {
    const hole = at(`${DATE} 11:00`);
    const weather = { windSpeed: (ms: number) => (ms === hole ? null : core('windSpeed', '7 mph')) };
    expect(told(foundFor({ weather }), DATE)).toEqual(['hold element-missing 11:00-12:00']);
  });

  it('by night alone may be missing by day', () => {
    const limits = limitSet([
      ...PLAIN_LIMITS.elements,
      limitOf('dispersionIndex', { when: 'night', low: { hold: '8' } }),
    ]);
    const findings = foundFor({ limits });
    const noon = at(`${DATE} 12:00`);
    expect(findings.some((f) => f.fromMs <= noon && noon < f.toMs)).toBe(false);
    expect(findings.some((f) => f.code === 'element-missing' && f.toMs > at(`${DATE} 23:00`))).toBe(true);
  });

  it('by nobody may be missing', () => {
    expect(foundFor({ weather: { probabilityOfThunder: null, windGust: null } })).toEqual([]);
  });
});

describe('a site with something to protect', () => {
  const site = siteWith({ protected: [EAST_SCHOOL] });

  it.each(['windDirection', 'windSpeed'] as const)('needs %s, limit or not', (element) => {
    const limits = limitSet([limitOf('relativeHumidity', { low: { hold: '30 %' } })]);
    const input = inputOf({ site, limits, weather: { [element]: null } });
    expect(codesOf(forecastQuality(contextOf(input)))).toEqual(['element-missing']);
    expect(hasGo(makePlan(input))).toBe(false);
  });
});

describe('the edges of a forecast', () => {
  const startMs = at('2026-03-02 10:00');
  const input = (hours: number) => ({
    ...inputOf(),
    forecast: forecastOf(seriesOf(startMs, hours, FAIR), NOW),
  });

  it('before its first hour and beyond its last nobody can say', () => {
    expect(told(forecastQuality(contextOf(input(6))), DATE)).toEqual([
      'hold before-forecast 2026-03-01 00:00-10:00',
      'hold beyond-horizon 16:00-later',
    ]);
  });

  it('a forecast without any hour says nothing', () => {
    expect(hasGo(makePlan(input(0)))).toBe(false);
  });
});

describe('faults in the document', () => {
  it('are told with their number and kinds, and are no verdict of themselves', () => {
    const input = inputOf();
    const faults = [
      { kind: 'out-of-range', where: 'windGust', count: 2, example: '900' },
      { kind: 'bad-interval', where: 'skyCover', count: 1, example: 'P1Y' },
    ];
    const findings = forecastQuality(contextOf({ ...input, forecast: { ...input.forecast, faults } }));
    expect(one(findings, 'forecast-faults')).toMatchObject({
      verdict: 'go',
      figures: { count: 3, kinds: ['bad-interval', 'out-of-range'] },
    });
  });
});
