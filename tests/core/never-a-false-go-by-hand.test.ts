// Law 1 for sites, limits and times of a burn made by hand, past the checks of the configuration.

import { describe, expect, it } from 'vitest';
import { makePlan, type PlanInput } from '#core/plan/make-plan.ts';
import type { Verdict } from '#core/rules/finding.ts';
import type { BurnTimes } from '#core/site/site.ts';
import { limitOf, limitSet } from '../builders/limits.ts';
import { inputOf, verdictAt } from '../builders/plan.ts';
import { EAST_SCHOOL, PLAIN_SITE, shiftOf, siteWith } from '../builders/site.ts';
import { highWind, limitsOf, lowHumidity, nothingIsGo, siteOf } from '../builders/spoiled.ts';
import { at } from '../builders/time.ts';

describe('sites and limits made by hand, past the checks of the configuration', () => {
  const nan = { value: Number.NaN, unit: 'mph' };
  nothingIsGo([
    ['no shifts', siteOf({ shifts: [] })],
    ['a shift on no day', siteOf({ shifts: [shiftOf('07:00', '17:00', [])] })],
    ['no limits', limitsOf()],
    ['one limit without bounds', limitsOf({ ...highWind, atMost: { hold: null, stop: null } })],
    ['one limit whose bounds are no numbers', limitsOf({ ...highWind, atMost: { hold: nan, stop: nan } })],
    [
      'a bound that is no number beside a good one',
      limitsOf({ ...highWind, atMost: { hold: nan, stop: { value: 6, unit: 'm/s' } } }),
    ],
    [
      'a limit on an element that the forecast lacks',
      limitsOf(limitOf('dispersionIndex', { low: { hold: '20' } })),
    ],
    [
      'a gust limit where the forecast has no gust',
      {
        ...inputOf({ weather: { windGust: null } }),
        limits: limitSet([limitOf('windGust', { high: { hold: '20 mph' } })]),
      },
    ],
    [
      'a gust limit where the forecast has gusts and no wind to check them by',
      {
        ...inputOf({ weather: { windSpeed: null } }),
        limits: limitSet([limitOf('windGust', { high: { hold: '20 mph' } })]),
      },
    ],
    [
      'bounds turned round',
      limitsOf(limitOf('windSpeed', { low: { hold: '12 mph' }, high: { hold: '3 mph' } })),
    ],
    [
      'a place to protect and no wind direction',
      { ...inputOf({ weather: { windDirection: null } }), site: siteWith({ protected: [EAST_SCHOOL] }) },
    ],
    [
      'a place to protect and no wind speed',
      {
        ...inputOf({ weather: { windSpeed: null } }),
        site: siteWith({ protected: [EAST_SCHOOL] }),
        limits: limitSet([lowHumidity]),
      },
    ],
    [
      'a place at no distance',
      {
        ...inputOf({ weather: { windDirection: 270 } }),
        site: siteWith({ protected: [{ ...EAST_SCHOOL, distanceM: Number.NaN }] }),
      },
    ],
    [
      'a place whose bearings are no numbers',
      {
        ...inputOf({ weather: { windDirection: 270 } }),
        site: siteWith({
          protected: [{ ...EAST_SCHOOL, fromBearingDeg: Number.NaN, toBearingDeg: Number.NaN }],
        }),
      },
    ],
    [
      'a reach that is no number',
      {
        ...inputOf({ weather: { windDirection: 270 } }),
        site: siteWith({ protected: [EAST_SCHOOL], smoke: { reachM: Number.NaN, unsureBelowMps: 1.5 } }),
      },
    ],
    [
      'daylight margins longer than the day',
      siteOf({ daylight: { lightUpAfterSunriseMin: 720, outBeforeSunsetMin: 720 } }),
    ],
    [
      'an order with its times turned round',
      siteOf({
        orders: [
          {
            kind: 'order',
            name: 'ban',
            issuer: 'county',
            fromMs: at('2026-03-01 00:00'),
            toMs: at('2026-02-01 00:00'),
            verdict: 'stop',
          },
        ],
      }),
    ],
    [
      'an order whose times are no numbers',
      siteOf({
        orders: [
          {
            kind: 'order',
            name: 'ban',
            issuer: 'county',
            fromMs: Number.NaN,
            toMs: Number.NaN,
            verdict: 'stop',
          },
        ],
      }),
    ],
  ]);
});

describe('absurd times of a burn', () => {
  const burnOf = (burn: Partial<BurnTimes>): PlanInput => siteOf({ burn: { ...PLAIN_SITE.burn, ...burn } });
  nothingIsGo([
    ['a burn-down of a day', burnOf({ burnDownMin: 1440 })],
    ['a cover of a day', burnOf({ coverMin: 1440 })],
    ['a warm-up of a day', burnOf({ warmUpMin: 1440 })],
    ['a shortest run of a day', burnOf({ shortestRunMin: 1440 })],
    ['a burn-down that is no number', burnOf({ burnDownMin: Number.NaN })],
    ['a cover that is no number', burnOf({ coverMin: Number.NaN })],
    ['a warm-up that is no number', burnOf({ warmUpMin: Number.NaN })],
    ['a shortest run that is no number', burnOf({ shortestRunMin: Number.NaN })],
  ]);

  it('a burn-down and cover of nothing are believed: charging may go on to the minute of the stop, and not beyond', () => {
    const plan = makePlan(burnOf({ burnDownMin: 0, coverMin: 0 }));
    const told = ['16:59', '17:00'].map((clock): Verdict => verdictAt(plan, at(`2026-03-02 ${clock}`)));
    expect(told).toEqual(['go', 'stop']);
  });
});
