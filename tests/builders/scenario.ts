// Random but whole plan inputs for the property tests: sites, limits, weather in blocks of three hours, gaps, alerts.

import fc from 'fast-check';
import type { PlanInput } from '#core/plan/make-plan.ts';
import type { ClockLimit, LimitSet } from '#core/score/limit.ts';
import type { Element } from '#core/series/elements.ts';
import type { AlertsSeen, OfficialAlert } from '#core/series/official-alert.ts';
import type { LocalOrder, ProtectedPlace, Site } from '#core/site/site.ts';
import { addDays, startOfDayMs } from '#core/units/local-time.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { alertOf } from './alerts.ts';
import { forecastOf, type Sketch, seriesOf } from './forecast.ts';
import { limitOf, limitSet } from './limits.ts';
import { PLAIN_SITE, shiftOf } from './site.ts';

export const BLOCK_HOURS = 3;
export const BLOCKS = 26;

/** Everything that a property may spoil; `toInput` turns it into the input of a plan. */
export interface Scenario {
  readonly site: Site;
  readonly limits: LimitSet;
  readonly firstDate: string;
  /** One value per block of three hours; null where missing. */
  readonly values: Readonly<Partial<Record<Element, readonly (number | null)[]>>>;
  readonly alerts: AlertsSeen | null;
  readonly issuedAgoMin: number;
  readonly nowMs: number;
}

const ZONES = [
  ['America/Chicago', 40.5, -90.1],
  ['America/Phoenix', 33.4, -112.1],
  ['America/Anchorage', 64.8, -147.7],
  ['Pacific/Guam', 13.4, 144.8],
  ['America/Puerto_Rico', 18.4, -66.1],
  ['Asia/Kolkata', 26.9, 75.8],
] as const;
/** Plain days, both clock changes of the United States, and the two solstices. */
const DATES = ['2026-03-02', '2026-03-08', '2026-11-01', '2026-06-21', '2026-12-21'] as const;

const bearing = fc.integer({ min: 0, max: 35 }).map((n) => n * 10);
const placeArb: fc.Arbitrary<ProtectedPlace> = fc.record({
  name: fc.constant('school'),
  fromBearingDeg: bearing,
  toBearingDeg: bearing,
  distanceM: fc.constantFrom(500, 2900),
  marginDeg: fc.constantFrom(0, 20),
  verdict: fc.constantFrom<'hold' | 'stop'>('hold', 'stop'),
});

const burnArb = fc.record({
  warmUpMin: fc.constantFrom(0, 10),
  kindlingMin: fc.constant(20),
  burnDownMin: fc.constantFrom(0, 45, 60, 180),
  coverMin: fc.constantFrom(0, 30),
  shortestRunMin: fc.constantFrom(0, 60, 120),
});

const siteArb = fc
  .record({
    zone: fc.constantFrom(...ZONES),
    shift: fc.constantFrom(['07:00', '17:00'], ['00:00', '00:00'], ['20:00', '06:00'], ['06:20', '18:40']),
    daylight: fc.option(fc.constant({ lightUpAfterSunriseMin: 60, outBeforeSunsetMin: 60 })),
    burn: burnArb,
    places: fc.array(placeArb, { maxLength: 2 }),
  })
  .map(
    ({ zone: [timeZone, latDeg, lonDeg], shift: [from = '', to = ''], daylight, burn, places }): Site => ({
      ...PLAIN_SITE,
      timeZone,
      place: { latDeg, lonDeg },
      shifts: [shiftOf(from, to)],
      daylight,
      burn,
      protected: places,
    }),
  );

const LIMITS = [
  limitOf('windSpeed', { low: { hold: '1 m/s' }, high: { hold: '6 m/s', stop: '8 m/s' } }),
  limitOf('windGust', { high: { hold: '9 m/s', stop: '12 m/s' } }),
  limitOf('relativeHumidity', { low: { hold: '30 %', stop: '20 %' } }),
  limitOf('mixingHeight', { low: { hold: '500 m' } }),
  limitOf('ventilationRate', { low: { hold: '2400 m²/s' } }),
  limitOf('probabilityOfThunder', { high: { hold: '15 %', stop: '30 %' } }),
  limitOf('dispersionIndex', { when: 'day', low: { hold: '20', stop: '10' } }),
  limitOf('dispersionIndex', { when: 'night', low: { hold: '8' } }),
];
const CLOCKS: readonly ClockLimit[] = [
  { lightFrom: '08:00', lastChargeBy: '15:00', outBy: '17:00', source: 'permit' },
  { lightFrom: null, lastChargeBy: null, outBy: '16:00', source: 'county' },
  { lightFrom: '09:30', lastChargeBy: null, outBy: null, source: 'our rule' },
];
const limitsArb = fc
  .tuple(fc.subarray(LIMITS, { minLength: 1 }), fc.subarray([...CLOCKS], { maxLength: 1 }))
  .map(([elements, clock]) => limitSet(elements, { clock }));

/** Mostly fair values, so that go is common; now and then a broken one or none. */
const around = (fair: readonly number[], foul: readonly number[]) =>
  fc.array(
    fc.oneof(
      { weight: 30, arbitrary: fc.constantFrom(...fair) },
      { weight: 2, arbitrary: fc.constantFrom(...foul) },
      { weight: 1, arbitrary: fc.constant(null) },
    ),
    {
      minLength: BLOCKS,
      maxLength: BLOCKS,
    },
  );

const valuesArb = fc.record({
  windSpeed: around([2, 3, 4, 5], [0, 1, 6, 7, 8, 9]),
  windGust: around([5, 6, 7], [9, 10, 12, 15]),
  windDirection: around([0, 30, 60, 90, 180, 270], [240, 300, 330]),
  relativeHumidity: around([35, 45, 60], [10, 20, 25, 30]),
  mixingHeight: around([800, 1200, 2000], [0, 300, 500]),
  transportWindSpeed: around([5, 8], [1, 3]),
  probabilityOfThunder: around([0, 5, 10], [15, 20, 30, 60]),
  dispersionIndex: around([30, 45, 60], [5, 9, 20]),
});

const EVENTS = ['Red Flag Warning', 'Wind Advisory', 'Special Weather Statement', 'unreadable alert'];
export const alertArb = (dayMs: number): fc.Arbitrary<OfficialAlert> =>
  fc
    .tuple(
      fc.constantFrom(...EVENTS),
      fc.integer({ min: -1000, max: 2400 }),
      fc.option(fc.integer({ min: 1, max: 900 })),
    )
    .map(([event, fromMin, lengthMin]) => {
      const fromMs = dayMs + fromMin * MINUTE_MS;
      return alertOf(event, fromMs, lengthMin === null ? null : fromMs + lengthMin * MINUTE_MS);
    });
export const orderArb = (dayMs: number): fc.Arbitrary<LocalOrder> =>
  fc
    .tuple(
      fc.integer({ min: -1000, max: 2000 }),
      fc.integer({ min: 1, max: 900 }),
      fc.constantFrom('order', 'authority-stop'),
    )
    .map(([fromMin, lengthMin, kind]) => ({
      kind,
      name: 'burn ban',
      issuer: 'county',
      fromMs: dayMs + fromMin * MINUTE_MS,
      toMs: dayMs + (fromMin + lengthMin) * MINUTE_MS,
      verdict: 'stop',
    }));

export const dayStartMs = (s: Scenario): number => startOfDayMs(s.firstDate, s.site.timeZone);
export const seriesStartMs = (s: Scenario): number =>
  Math.floor(startOfDayMs(addDays(s.firstDate, -1), s.site.timeZone) / HOUR_MS) * HOUR_MS;

export const scenarioArb: fc.Arbitrary<Scenario> = fc
  .record({
    site: siteArb,
    limits: limitsArb,
    firstDate: fc.constantFrom(...DATES),
    values: valuesArb,
    issuedAgoMin: fc.constantFrom(0, 60, 300, 600),
  })
  .chain((base) => {
    const dayMs = startOfDayMs(base.firstDate, base.site.timeZone);
    const nowMs = dayMs + 5 * HOUR_MS;
    return fc
      .record({
        alerts: fc.array(alertArb(dayMs), { maxLength: 1 }),
        orders: fc.array(orderArb(dayMs), { maxLength: 1 }),
        quiet: fc.boolean(),
      })
      .map(
        ({ alerts, orders, quiet }): Scenario => ({
          ...base,
          site: { ...base.site, orders: quiet ? [] : orders },
          alerts: { fetchedAtMs: nowMs, complete: true, alerts: quiet ? [] : alerts },
          nowMs,
        }),
      );
  });

export function toInput(s: Scenario): PlanInput {
  const sketch: Sketch = {};
  for (const [element, blocks] of Object.entries(s.values) as [Element, readonly (number | null)[]][]) {
    // A gust below the wind is no gust; the forecast of a scenario has none.
    const wind = element === 'windGust' ? s.values.windSpeed : undefined;
    sketch[element] = (_, h) => {
      const block = Math.floor(h / BLOCK_HOURS);
      const value = blocks[block] ?? null;
      return value === null ? null : Math.max(value, wind?.[block] ?? value);
    };
  }
  const forecast = forecastOf(
    seriesOf(seriesStartMs(s), BLOCKS * BLOCK_HOURS, sketch),
    s.nowMs - s.issuedAgoMin * MINUTE_MS,
  );
  return {
    site: s.site,
    limits: s.limits,
    forecast,
    alerts: s.alerts,
    nowMs: s.nowMs,
    firstDate: s.firstDate,
    dayCount: 1,
  };
}

export const withValue = (s: Scenario, element: Element, block: number, value: number | null): Scenario => ({
  ...s,
  values: { ...s.values, [element]: (s.values[element] ?? []).map((v, b) => (b === block ? value : v)) },
});
