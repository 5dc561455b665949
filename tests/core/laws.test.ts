// The laws, on random plans: nothing that gets worse betters a verdict, and nothing that goes missing gives go.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makePlan, type PlanInput } from '#core/plan/make-plan.ts';
import { SEVERITY } from '#core/rules/finding.ts';
import { ELEMENT_NAMES, type Element } from '#core/series/elements.ts';
import { type HourlySeries, makeSeries } from '#core/series/hourly-series.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { type Window, windowAt } from '#core/windows/find-windows.ts';
import { columnOf } from '../builders/forecast.ts';
import {
  alertArb,
  BLOCKS,
  dayStartMs,
  orderArb,
  type Scenario,
  scenarioArb,
  toInput,
  withValue,
} from '../builders/scenario.ts';

const SEED = 20_261_125;
const RUNS = { seed: SEED, numRuns: 200 };
console.info(`laws: seed ${SEED}, ${RUNS.numRuns} runs each`);

/** Every instant at which a verdict may change in either, the minute after, and the middle of each piece between. */
function instants(a: readonly Window[], b: readonly Window[]): number[] {
  const edges = [...new Set([...a, ...b].flatMap((w) => [w.fromMs, w.toMs]))].sort((x, y) => x - y);
  const all = edges.flatMap((ms, i) => [ms, ms + MINUTE_MS, ((edges[i + 1] ?? ms) + ms) / 2]);
  // A longer burn-down may be judged over more days; only what both judged is compared.
  return all.filter((ms) => windowAt(a, ms) !== null && windowAt(b, ms) !== null);
}

const gravity = (windows: readonly Window[], ms: number): number =>
  SEVERITY[windowAt(windows, ms)?.verdict ?? 'stop'];

function expectNoBetter(before: PlanInput, after: PlanInput): void {
  const [was, is] = [makePlan(before).windows, makePlan(after).windows];
  for (const ms of instants(was, is)) {
    if (gravity(is, ms) < gravity(was, ms)) {
      throw new Error(
        `${new Date(ms).toISOString()} went from ${windowAt(was, ms)?.verdict} to ${windowAt(is, ms)?.verdict}`,
      );
    }
  }
}

function expectNoNewGo(before: PlanInput, after: PlanInput): void {
  const [was, is] = [makePlan(before).windows, makePlan(after).windows];
  for (const ms of instants(was, is)) {
    if (windowAt(is, ms)?.verdict === 'go' && windowAt(was, ms)?.verdict !== 'go') {
      throw new Error(`${new Date(ms).toISOString()} became go from ${windowAt(was, ms)?.verdict}`);
    }
  }
}

const block = fc.integer({ min: 0, max: BLOCKS - 1 });
const step = fc.constantFrom(0.5, 1, 3, 10, 40);

/** One value worse by the side of its limit: lower where it must not fall, higher where it must not rise. */
const LOWER: readonly Element[] = [
  'windSpeed',
  'relativeHumidity',
  'mixingHeight',
  'transportWindSpeed',
  'dispersionIndex',
];
const HIGHER: readonly Element[] = ['windSpeed', 'windGust', 'probabilityOfThunder'];

function lowered(s: Scenario, element: Element, at: number, by: number): Scenario | null {
  const value = s.values[element]?.[at] ?? null;
  // Wind above its high bound gets better by falling: only what is not too high may fall.
  if (value === null || (element === 'windSpeed' && value >= 6)) return null;
  return withValue(s, element, at, Math.max(0, value - by));
}

function raised(s: Scenario, element: Element, at: number, by: number): Scenario | null {
  const value = s.values[element]?.[at] ?? null;
  // Wind below its low bound, or too light to carry smoke surely, gets better by rising.
  if (value === null || (element === 'windSpeed' && value < 1.5)) return null;
  return withValue(s, element, at, Math.min(100, value + by));
}

describe('worsening never betters a verdict', () => {
  it('one value of one element', () => {
    const change = fc.oneof(
      fc.tuple(fc.constant(lowered), fc.constantFrom(...LOWER), block, step),
      fc.tuple(fc.constant(raised), fc.constantFrom(...HIGHER), block, step),
    );
    let judged = 0;
    fc.assert(
      fc.property(scenarioArb, change, (s, [worse, element, at, by]) => {
        const after = worse(s, element, at, by);
        if (after === null) return;
        judged += 1;
        expectNoBetter(toInput(s), toInput(after));
      }),
      { ...RUNS, numRuns: 400 },
    );
    expect(judged).toBeGreaterThan(240);
  });

  it('the wind turning towards the one protected place', () => {
    fc.assert(
      fc.property(
        scenarioArb.filter((s) => s.site.protected.length > 0),
        block,
        (given, at) => {
          const [place] = given.site.protected;
          if (!place || given.values.windDirection?.[at] === null) return;
          const s = { ...given, site: { ...given.site, protected: [place] } };
          const middle = place.fromBearingDeg + ((place.toBearingDeg - place.fromBearingDeg + 360) % 360) / 2;
          expectNoBetter(toInput(s), toInput(withValue(s, 'windDirection', at, (middle + 180) % 360)));
        },
      ),
      RUNS,
    );
  });

  it('an alert or an order more', () => {
    const more = scenarioArb.chain((s) =>
      fc.tuple(fc.constant(s), alertArb(dayStartMs(s)), orderArb(dayStartMs(s)), fc.boolean()),
    );
    fc.assert(
      fc.property(more, ([s, alert, order, isAlert]) => {
        const after: Scenario = isAlert
          ? { ...s, alerts: s.alerts && { ...s.alerts, alerts: [...s.alerts.alerts, alert] } }
          : { ...s, site: { ...s.site, orders: [...s.site.orders, order] } };
        expectNoBetter(toInput(s), toInput(after));
      }),
      RUNS,
    );
  });

  it('an older forecast, and alerts read longer ago', () => {
    fc.assert(
      fc.property(
        scenarioArb,
        fc.integer({ min: 0, max: 1200 }),
        fc.integer({ min: 0, max: 400 }),
        (s, older, longer) => {
          const alerts = s.alerts && { ...s.alerts, fetchedAtMs: s.alerts.fetchedAtMs - longer * MINUTE_MS };
          expectNoBetter(toInput(s), toInput({ ...s, issuedAgoMin: s.issuedAgoMin + older, alerts }));
        },
      ),
      RUNS,
    );
  });

  it('a longer burn-down, cover, warm-up or shortest run, and a limit or a place more', () => {
    fc.assert(
      fc.property(
        scenarioArb,
        scenarioArb,
        fc.constantFrom('burnDownMin', 'coverMin', 'warmUpMin', 'shortestRunMin', 'limits', 'place'),
        fc.integer({ min: 1, max: 90 }),
        (s, other, what, by) => {
          const more = (): Scenario => {
            // Where nothing was judged at some hour, a limit more may be the first that is met.
            if (what === 'limits' && s.limits.elements.every((l) => l.when !== 'always')) return s;
            if (what === 'limits')
              return {
                ...s,
                limits: { ...s.limits, elements: [...s.limits.elements, ...other.limits.elements] },
              };
            if (what === 'place')
              return { ...s, site: { ...s.site, protected: [...s.site.protected, ...other.site.protected] } };
            return { ...s, site: { ...s.site, burn: { ...s.site.burn, [what]: s.site.burn[what] + by } } };
          };
          expectNoBetter(toInput(s), toInput(more()));
        },
      ),
      { ...RUNS, numRuns: 300 },
    );
  });
});

describe('what goes missing never gives go', () => {
  const withSeries = (input: PlanInput, series: HourlySeries): PlanInput => ({
    ...input,
    forecast: { ...input.forecast, series },
  });

  function without(series: HourlySeries, element: Element, hour: number): HourlySeries {
    const values = Array.from(series.columns[element].values, (v, h) =>
      h === hour || Number.isNaN(v) ? null : v,
    );
    return { ...series, columns: { ...series.columns, [element]: columnOf(values) } };
  }

  function cut(series: HourlySeries, from: number, to: number): HourlySeries {
    const columns = Object.fromEntries(
      ELEMENT_NAMES.map((e) => [
        e,
        columnOf(Array.from(series.columns[e].values.slice(from, to), (v) => (Number.isNaN(v) ? null : v))),
      ]),
    );
    return makeSeries(series.startMs + from * HOUR_MS, Math.max(0, to - from), columns);
  }

  // Elements that another gives in their stead (humidity from the dew point, ventilation from mixing height and transport
  // wind, gust by a factor) are not in these scenarios: derive.test.ts has them.
  it('one hour of one element', () => {
    fc.assert(
      fc.property(
        scenarioArb,
        fc.constantFrom(...ELEMENT_NAMES),
        fc.integer({ min: 0, max: BLOCKS * 3 - 1 }),
        (s, element, hour) => {
          const input = toInput(s);
          expectNoNewGo(input, withSeries(input, without(input.forecast.series, element, hour)));
        },
      ),
      { ...RUNS, numRuns: 400 },
    );
  });

  it('the head or the tail of the forecast, down to nothing', () => {
    const hours = BLOCKS * 3;
    fc.assert(
      fc.property(
        scenarioArb,
        fc.integer({ min: 0, max: hours }),
        fc.integer({ min: 0, max: hours }),
        (s, a, b) => {
          const input = toInput(s);
          expectNoNewGo(input, withSeries(input, cut(input.forecast.series, Math.min(a, b), Math.max(a, b))));
        },
      ),
      RUNS,
    );
  });

  it('the alerts, a part of them, or the time of issue: then nothing is go at all', () => {
    fc.assert(
      fc.property(scenarioArb, (s) => {
        const input = toInput(s);
        const spoiled: PlanInput[] = [
          { ...input, alerts: null },
          { ...input, alerts: input.alerts && { ...input.alerts, complete: false } },
          { ...input, forecast: { ...input.forecast, issuedAtMs: null } },
        ];
        for (const one of spoiled) {
          const plan = makePlan(one);
          expect(plan.windows.filter((w) => w.verdict === 'go')).toEqual([]);
          expect(plan.days.every((d) => d.times === null && d.verdict !== 'go')).toBe(true);
        }
      }),
      { ...RUNS, numRuns: 100 },
    );
  });
});
