// Law 1: missing, stale, unreadable, out-of-range or future-dated data never gives go. One row for every way in.
// Sites and limits made by hand have their own file beside this one.

import { describe, expect, it } from 'vitest';
import type { PlanInput } from '#core/plan/make-plan.ts';
import { makePlan } from '#core/plan/make-plan.ts';
import type { ElementLimit } from '#core/score/limit.ts';
import { CLASS, scoreHours } from '#core/score/score-hours.ts';
import { ELEMENT_NAMES, ELEMENTS, type Element } from '#core/series/elements.ts';
import { type Column, type HourlySeries, makeSeries } from '#core/series/hourly-series.ts';
import { alertOf, alertsSeen } from '../builders/alerts.ts';
import { columnOf, core, FAIR, seriesOf } from '../builders/forecast.ts';
import { limitOf, limitSet } from '../builders/limits.ts';
import { hasGo, inputOf, verdictAt } from '../builders/plan.ts';
import { PLAIN_SITE } from '../builders/site.ts';
import {
  claimed,
  FAIR_INPUT,
  forecastWith,
  highWind,
  limitsOf,
  lowHumidity,
  NOW,
  nothingIsGo,
  type Row,
  SCHOOL_INPUT,
  seriesWith,
  siteOf,
} from '../builders/spoiled.ts';
import { at, minutes } from '../builders/time.ts';

const NOON = at('2026-03-02 12:00');

describe('the yardstick', () => {
  it('fair weather is go, with and without something to protect', () => {
    expect([hasGo(makePlan(FAIR_INPUT)), hasGo(makePlan(SCHOOL_INPUT))]).toEqual([true, true]);
  });
});

describe('values that are none, though their hours claim to be there', () => {
  const bad = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1];
  const limited: readonly (readonly [Element, PlanInput])[] = [
    ['windSpeed', limitsOf(highWind)],
    ['relativeHumidity', limitsOf(lowHumidity)],
    ['mixingHeight', limitsOf(limitOf('mixingHeight', { low: { hold: '1700 ft' } }))],
    ['windGust', limitsOf(limitOf('windGust', { high: { hold: '20 mph' } }))],
    ['probabilityOfThunder', limitsOf(limitOf('probabilityOfThunder', { high: { hold: '15 %' } }))],
    ['windDirection', SCHOOL_INPUT],
    ['windSpeed', { ...SCHOOL_INPUT, limits: limitSet([lowHumidity]) }],
  ];
  // A gust below the wind takes the wind's value, also a gust of -1: that is the rule for gusts, and a value.
  const rows = limited.flatMap(([element, input]) =>
    bad
      .filter((value) => !(element === 'windGust' && value < 0))
      .map((value): Row => [`${element} of ${value}`, seriesWith(element, claimed(value), input)]),
  );
  nothingIsGo(rows);

  it.each(ELEMENT_NAMES.filter((e) => ELEMENTS[e].dimension !== 'angle'))(
    '%s beyond its plausible range is judged by no limit',
    (element) => {
      const { least, most, unit } = ELEMENTS[element];
      const bound = { value: (least + most) / 2, unit };
      const sides = [
        { atLeast: { hold: bound, stop: null }, atMost: null },
        { atLeast: null, atMost: { hold: bound, stop: null } },
      ];
      for (const side of sides) {
        const limit: ElementLimit = {
          element,
          when: 'always',
          inclusive: false,
          source: 'test',
          categories: null,
          ...side,
        };
        for (const value of [least - 1, most + 1]) {
          expect(scoreHours(columnOf([value]), limit).classes[0], `${value}`).not.toBe(CLASS.go);
        }
      }
    },
  );
});

describe('forecasts that are none', () => {
  const series = FAIR_INPUT.forecast.series;
  const shorter = (column: Column): Column => ({
    ...column,
    values: column.values.slice(0, 10),
    missing: column.missing.slice(0, 10),
  });
  const truncated: HourlySeries = {
    ...series,
    columns: { ...series.columns, windSpeed: shorter(series.columns.windSpeed) },
  };
  nothingIsGo([
    ['without a single hour', forecastWith({ series: seriesOf(series.startMs, 0, FAIR) })],
    ['without a single element', forecastWith({ series: makeSeries(series.startMs, 144, {}) })],
    ['that begins after the day', forecastWith({ series: seriesOf(at('2026-03-05 00:00'), 144, FAIR) })],
    ['that ended before the day', forecastWith({ series: seriesOf(at('2026-02-01 00:00'), 144, FAIR) })],
    ['that begins at no time', forecastWith({ series: { ...series, startMs: Number.NaN } })],
    ['of no number of hours', forecastWith({ series: { ...series, hours: Number.NaN } })],
    ['whose column is shorter than it says', forecastWith({ series: truncated })],
    [
      'whose derived ventilation has no transport wind',
      {
        ...inputOf({ weather: { transportWindSpeed: null } }),
        limits: limitSet([limitOf('ventilationRate', { low: { hold: '15000 kt-ft' } })]),
      },
    ],
  ]);
});

describe('times that do not fit', () => {
  nothingIsGo([
    ['no time of issue', forecastWith({ issuedAtMs: null })],
    ['a time of issue that is no number', forecastWith({ issuedAtMs: Number.NaN })],
    ['a time of issue beyond all time', forecastWith({ issuedAtMs: Number.POSITIVE_INFINITY })],
    ['a time of issue before all time', forecastWith({ issuedAtMs: Number.NEGATIVE_INFINITY })],
    ['issued tomorrow', forecastWith({ issuedAtMs: NOW + minutes(1440) })],
    ['issued 14 hours ago', forecastWith({ issuedAtMs: NOW - minutes(840) })],
    ['a now that is no number', { ...FAIR_INPUT, nowMs: Number.NaN }],
    ['a now long before', { ...FAIR_INPUT, nowMs: at('2020-01-01 00:00') }],
    ['a now long after', { ...FAIR_INPUT, nowMs: at('2030-01-01 00:00') }],
    [
      'no age at which a forecast is stale',
      siteOf({ quality: { warnAfterMin: Number.NaN, holdAfterMin: Number.NaN, alertsHoldAfterMin: 120 } }),
    ],
    [
      'no age at which alerts are old',
      siteOf({ quality: { ...PLAIN_SITE.quality, alertsHoldAfterMin: Number.NaN } }),
    ],
  ]);
});

describe('alerts that nobody can trust', () => {
  nothingIsGo([
    ['never read', { ...FAIR_INPUT, alerts: null }],
    ['read in part', { ...FAIR_INPUT, alerts: { ...alertsSeen(NOW), complete: false } }],
    ['read yesterday', { ...FAIR_INPUT, alerts: alertsSeen(NOW - minutes(1440)) }],
    ['read tomorrow', { ...FAIR_INPUT, alerts: alertsSeen(NOW + minutes(1440)) }],
    ['read at no time', { ...FAIR_INPUT, alerts: alertsSeen(Number.NaN) }],
    [
      'one that is unreadable',
      { ...FAIR_INPUT, alerts: alertsSeen(NOW, [alertOf('unreadable alert', null, null)]) },
    ],
    [
      'a warning without times',
      { ...FAIR_INPUT, alerts: alertsSeen(NOW, [alertOf('Red Flag Warning', null, null)]) },
    ],
    [
      'a warning whose times are no numbers',
      { ...FAIR_INPUT, alerts: alertsSeen(NOW, [alertOf('Red Flag Warning', Number.NaN, Number.NaN)]) },
    ],
    [
      'a warning that ends before it began, long ago',
      {
        ...FAIR_INPUT,
        alerts: alertsSeen(NOW, [
          alertOf('Red Flag Warning', at('2026-03-01 06:00'), at('2026-02-01 00:00')),
        ]),
      },
    ],
  ]);
});
describe('wind exactly on a bound', () => {
  const onBound = (bound: string, speed: number) =>
    makePlan({
      ...inputOf({ weather: { windSpeed: speed } }),
      limits: limitSet([limitOf('windSpeed', { high: { hold: bound } })]),
    });

  it.each([
    ['17 kt', 31.484 / 3.6],
    ['17 kt', 31.483999999999998 / 3.6],
    ['12 mph', 12 * 0.44704],
    ['12 mph', core('windSpeed', '12 mph') - 1e-12],
    ['10 m/s', 36 / 3.6],
  ])('of %s is not go', (bound, speed) => {
    expect(verdictAt(onBound(bound, speed), NOON)).toBe('hold');
  });
});
