// The laws of the watch, on random records: what goes missing is never over, what gets worse betters nothing, and where north
// lies does not matter.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SEVERITY } from '#core/rules/finding.ts';
import { wrapDeg } from '#core/units/direction.ts';
import type { Condition } from '#core/watch/condition.ts';
import { judgeWatch } from '#core/watch/judge-watch.ts';
import { liveVerdict } from '#core/watch/live-verdict.ts';
import { conditionKey } from '#core/watch/make-condition.ts';
import type { Observation, ObservedWind } from '#core/watch/observation.ts';
import { chosenFor, tellsWind } from '#core/watch/observed-by.ts';
import { observedValue } from '#core/watch/observed-value.ts';
import { usableWind } from '#core/watch/usable-wind.ts';
import { type WatchInput, watchContext } from '#core/watch/watch-context.ts';
import { watchInput } from '../../builders/watch-input.ts';
import { watchScenarioArb } from '../../builders/watch-scenario.ts';

const SEED = 20_261_126;
const RUNS = { seed: SEED, numRuns: 150 };
console.info(`laws of the watch: seed ${SEED}, ${RUNS.numRuns} runs each`);

const live = (input: WatchInput, conditions: readonly Condition[]) =>
  liveVerdict(input.plan, input.burn, conditions, input.nowMs);
const byKey = (conditions: readonly Condition[]) => new Map(conditions.map((c) => [conditionKey(c), c]));
/** True, or true before and not known to be over. */
const isRaised = (c: Condition) => c.truth === 'true' || (c.truth === 'unknown' && c.asOfMs !== null);

const blanked = (o: Observation): Observation => ({
  ...o,
  wind: { kind: 'missing', speedMps: null },
  gustMps: null,
  relativeHumidityPct: null,
});

describe('what goes missing', () => {
  it('is never over: no condition that was raised turns false because observations are removed', () => {
    let raised = 0;
    fc.assert(
      fc.property(
        watchScenarioArb,
        fc.infiniteStream(fc.integer({ min: 0, max: 3 })),
        ({ input }, random) => {
          const before = judgeWatch(input);
          const next = (): number => random.next().value ?? 0;
          const share = next();
          // Some go missing altogether, of others only what they tell.
          const observations = input.observations
            .filter(() => next() >= share)
            .map((o) => (next() === 0 ? blanked(o) : o));
          const after = judgeWatch({ ...input, observations, before });
          const now = byKey(after);
          for (const was of before.filter(isRaised)) {
            raised += 1;
            const is = now.get(conditionKey(was));
            expect(is?.truth, conditionKey(was)).not.toBe('false');
            // And it weighs no less.
            expect(SEVERITY[is?.verdict ?? 'go'], conditionKey(was)).toBeGreaterThanOrEqual(
              SEVERITY[was.verdict],
            );
          }
        },
      ),
      RUNS,
    );
    expect(raised).toBeGreaterThan(RUNS.numRuns);
  });

  it('altogether leaves nothing measured false, and the live verdict no better than hold or what was raised', () => {
    fc.assert(
      fc.property(watchScenarioArb, ({ input }) => {
        const before = judgeWatch(input);
        const after = judgeWatch({ ...input, observations: [], before });
        const measured = after.filter((c) => c.basis === 'observed' && c.code !== 'station-doubted');
        expect(measured.filter((c) => c.truth === 'false')).toEqual([]);
        expect(live(input, after).verdict).not.toBe('go');
      }),
      RUNS,
    );
  });
});

describe('the same record', () => {
  it('judged once more gives the same truth', () => {
    fc.assert(
      fc.property(watchScenarioArb, ({ input }) => {
        const once = judgeWatch(input);
        const twice = judgeWatch({ ...input, before: once });
        expect(twice.map((c) => [conditionKey(c), c.truth, c.verdict])).toEqual(
          once.map((c) => [conditionKey(c), c.truth, c.verdict]),
        );
      }),
      RUNS,
    );
  });

  it('in whatever order it is given gives the same', () => {
    fc.assert(
      fc.property(watchScenarioArb, ({ input }) => {
        const turned = {
          ...input,
          observations: input.observations.toReversed(),
          stations: input.stations.toReversed(),
        };
        expect(judgeWatch(turned)).toEqual(judgeWatch(input));
      }),
      RUNS,
    );
  });
});

describe('the live verdict', () => {
  it('is never better than the plan', () => {
    fc.assert(
      fc.property(watchScenarioArb, fc.integer({ min: -600, max: 600 }), ({ input }, minutes) => {
        const nowMs = input.nowMs + minutes * 60_000;
        const found = liveVerdict(input.plan, input.burn, judgeWatch({ ...input, nowMs }), nowMs);
        expect(SEVERITY[found.verdict]).toBeGreaterThanOrEqual(SEVERITY[found.planVerdict]);
      }),
      RUNS,
    );
  });
});

/** One observation made worse; null where it has nothing to make worse, or where stronger would be better. */
type Worsen = (o: Observation, by: number, towardsDeg: number) => Observation | null;

const withSpeed = (wind: ObservedWind, speedMps: number): ObservedWind =>
  wind.kind === 'calm' ? wind : { ...wind, speedMps };

const WORSE: Readonly<Record<string, Worsen>> = {
  gust: (o, by) => (o.gustMps === null ? null : { ...o, gustMps: o.gustMps + by }),
  // A wind too light to judge gets surer by rising: only what is judged may rise.
  wind: (o, by) => {
    const speed = o.wind.kind === 'calm' ? null : o.wind.speedMps;
    return speed === null || speed < 3 ? null : { ...o, wind: withSpeed(o.wind, speed + by) };
  },
  humidity: (o, by) =>
    o.relativeHumidityPct === null
      ? null
      : { ...o, relativeHumidityPct: Math.max(0, o.relativeHumidityPct - by * 3) },
  thunder: (o) => ({ ...o, thunder: true }),
  towards: (o, _, towardsDeg) =>
    o.wind.kind === 'blowing' ? { ...o, wind: { ...o.wind, fromDeg: towardsDeg } } : null,
  doubt: (o) => (o.quality === 'doubtful' ? null : { ...o, quality: 'doubtful' }),
};

/** Who speaks for the site on each question. */
function speakers(input: WatchInput): string {
  const context = watchContext(input);
  const of = (element: 'windSpeed' | 'windGust' | 'relativeHumidity') =>
    chosenFor(context, (o, station) => {
      const value = observedValue(element, o, station, input.settings);
      return value !== null && value.high < 140;
    }).chosen?.station.id;
  const wind = chosenFor(context, tellsWind).chosen?.station.id;
  return [wind, of('windSpeed'), of('windGust'), of('relativeHumidity')].join();
}

describe('one observation that gets worse', () => {
  // Where it makes another station speak for the site, that one is believed: this is told, and no better or worse.
  it.each(Object.keys(WORSE))('betters no live verdict (%s)', (name) => {
    let [judged, went, worsened] = [0, 0, 0];
    const which = fc.integer({ min: 0, max: 14 });
    fc.assert(
      fc.property(watchScenarioArb, which, fc.constantFrom(0.5, 2, 5, 12), ({ input }, at, by) => {
        const newest = input.observations.filter((o) => o.station === 'mast').toReversed();
        const chosen = newest[at];
        const place = input.site.protected[0];
        if (chosen === undefined || place === undefined) return;
        const width = wrapDeg(place.toBearingDeg - place.fromBearingDeg);
        const worse =
          WORSE[name]?.(chosen, by, wrapDeg(place.fromBearingDeg + width / 2 + 180) || 360) ?? null;
        if (worse === null) return;
        const observations = input.observations.map((o) => (o === chosen ? worse : o));
        const spoiled = { ...input, observations };
        if (speakers(spoiled) !== speakers(input)) return;
        judged += 1;
        // Both know what was judged before: a raised condition does not rest on the observation alone.
        const before = judgeWatch({ ...input, nowMs: input.nowMs - 60_000 });
        const was = live(input, judgeWatch({ ...input, before })).verdict;
        const is = live(spoiled, judgeWatch({ ...spoiled, before })).verdict;
        if (was === 'go') went += 1;
        if (is !== was) worsened += 1;
        expect(SEVERITY[is]).toBeGreaterThanOrEqual(SEVERITY[was]);
      }),
      RUNS,
    );
    console.info(`${name}: ${judged} judged, ${went} of them go, ${worsened} became worse`);
    expect(went).toBeGreaterThan(RUNS.numRuns / 5);
    expect(worsened).toBeGreaterThan(0);
  });
});

describe('where north lies', () => {
  const turned = (input: WatchInput, by: number): WatchInput => {
    const turn = (deg: number) => wrapDeg(deg + by) || 360;
    const place = input.site.protected.map((p) => ({
      ...p,
      fromBearingDeg: wrapDeg(p.fromBearingDeg + by),
      toBearingDeg: wrapDeg(p.toBearingDeg + by),
    }));
    return {
      ...input,
      site: { ...input.site, protected: place },
      burn: input.burn && {
        ...input.burn,
        briefedFromDeg: input.burn.briefedFromDeg === null ? null : turn(input.burn.briefedFromDeg),
      },
      observations: input.observations.map((o) => ({
        ...o,
        wind: o.wind.kind === 'blowing' ? { ...o.wind, fromDeg: turn(o.wind.fromDeg) } : o.wind,
      })),
    };
  };

  it('does not matter: everything turned by any angle gives the same truth', () => {
    let trueOnes = 0;
    fc.assert(
      fc.property(watchScenarioArb, fc.double({ min: -360, max: 360, noNaN: true }), ({ input }, by) => {
        const briefed = {
          ...input,
          burn: input.burn && { ...input.burn, briefedFromDeg: input.burn.briefedFromDeg ?? 90 },
        };
        const was = judgeWatch(briefed);
        const is = judgeWatch(turned(briefed, by));
        trueOnes += was.filter((c) => c.truth === 'true' && c.basis === 'observed').length;
        expect(is.map((c) => [conditionKey(c), c.truth, c.verdict])).toEqual(
          was.map((c) => [conditionKey(c), c.truth, c.verdict]),
        );
      }),
      RUNS,
    );
    expect(trueOnes).toBeGreaterThan(RUNS.numRuns / 2);
  });
});

describe('figures that are none', () => {
  it('never make anything false: no number in the wind, the gust, the humidity or the time', () => {
    const input = watchInput();
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, -1]) {
      const observations = input.observations.map((o) => ({
        ...o,
        wind: { kind: 'blowing' as const, fromDeg: bad, speedMps: bad },
        gustMps: bad,
        relativeHumidityPct: bad,
      }));
      expect(observations.map((o) => usableWind(o, input.stations[0] ?? fail()).kind)).not.toContain(
        'blowing',
      );
      const conditions = judgeWatch({ ...input, observations });
      const measured = conditions.filter((c) => c.basis === 'observed' && c.code !== 'station-doubted');
      expect(measured.filter((c) => c.truth === 'false').map(conditionKey)).toEqual([]);
    }
  });
});

const fail = (): never => {
  throw new Error('no station');
};
