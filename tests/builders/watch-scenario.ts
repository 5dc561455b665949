// Random but whole inputs of a watch for the property tests: a site with places, stations that tell well and badly, an open burn.

import fc from 'fast-check';
import type { ProtectedPlace } from '#core/site/site.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { WatchInput } from '#core/watch/watch-context.ts';
import { core } from './forecast.ts';
import { limitOf, limitSet } from './limits.ts';
import { siteWith } from './site.ts';
import { AIRPORT, clock, ON_SITE, PERSON, seen } from './watch.ts';
import { OPEN_BURN, watchInput } from './watch-input.ts';

export const mps = (n: number) => core('windSpeed', `${n} m/s`);

/** No low bound on wind: what gets stronger gets worse. */
const LIMITS = limitSet([
  limitOf('windSpeed', { high: { hold: '8 m/s', stop: '11 m/s' } }),
  limitOf('windGust', { high: { hold: '10 m/s', stop: '13 m/s' } }),
  limitOf('relativeHumidity', { low: { hold: '30 %', stop: '20 %' } }),
]);

const placeArb: fc.Arbitrary<ProtectedPlace> = fc
  .record({
    fromBearingDeg: fc.integer({ min: 0, max: 35 }).map((n) => n * 10),
    widthDeg: fc.constantFrom(0, 20, 60, 120),
    distanceM: fc.constantFrom(500, 2900),
    marginDeg: fc.constantFrom(0, 20),
    verdict: fc.constantFrom<'hold' | 'stop'>('hold', 'stop'),
  })
  .map(({ widthDeg, ...place }) => ({
    ...place,
    name: 'school',
    toBearingDeg: (place.fromBearingDeg + widthDeg) % 360,
  }));

/** One observation: minutes before now, a step of direction, figures; some are blank, calm, variable or doubted. */
interface Step {
  readonly minutesAgo: number;
  readonly turnDeg: number;
  readonly kind: 'blowing' | 'calm' | 'variable' | 'missing';
  readonly speed: number;
  readonly gust: number | null;
  readonly humidity: number | null;
  readonly doubtful: boolean;
}
const stepArb = (minutesAgo: number): fc.Arbitrary<Step> =>
  fc.record({
    minutesAgo: fc.constant(minutesAgo),
    turnDeg: fc.oneof(
      { weight: 40, arbitrary: fc.integer({ min: -9, max: 9 }) },
      { weight: 1, arbitrary: fc.integer({ min: -180, max: 180 }) },
    ),
    kind: fc.oneof(
      { weight: 40, arbitrary: fc.constant('blowing' as const) },
      { weight: 1, arbitrary: fc.constantFrom('calm' as const, 'variable' as const, 'missing' as const) },
    ),
    speed: fc.oneof(
      { weight: 40, arbitrary: fc.double({ min: 3, max: 6, noNaN: true }) },
      { weight: 1, arbitrary: fc.double({ min: 0, max: 12, noNaN: true }) },
    ),
    gust: fc.oneof(
      { weight: 40, arbitrary: fc.double({ min: 6, max: 9, noNaN: true }) },
      { weight: 1, arbitrary: fc.double({ min: 9, max: 15, noNaN: true }) },
      { weight: 1, arbitrary: fc.constant(null) },
    ),
    humidity: fc.oneof(
      { weight: 40, arbitrary: fc.double({ min: 40, max: 60, noNaN: true }) },
      { weight: 1, arbitrary: fc.double({ min: 10, max: 40, noNaN: true }) },
      { weight: 1, arbitrary: fc.constant(null) },
    ),
    doubtful: fc.oneof(
      { weight: 60, arbitrary: fc.constant(false) },
      { weight: 1, arbitrary: fc.constant(true) },
    ),
  });

function observationsOf(steps: readonly Step[], station: string, firstDeg: number): Observation[] {
  let fromDeg = firstDeg;
  return steps.map((s) => {
    fromDeg = (((fromDeg + s.turnDeg) % 360) + 360) % 360 || 360;
    const wind = {
      blowing: `${fromDeg} ${s.speed}`,
      calm: 'calm',
      variable: `VRB ${s.speed}`,
      missing: 'none',
    }[s.kind];
    return seen(clock('13:00') - s.minutesAgo * MINUTE_MS, wind, {
      station,
      gustMps: s.kind === 'missing' ? null : s.gust,
      relativeHumidityPct: s.humidity,
      quality: s.doubtful ? 'doubtful' : 'passed',
    });
  });
}

/** What a station tells from a direction on. The last few may be lacking: one that has gone silent. */
type Told = (firstDeg: number) => Observation[];

const toldArb = (station: string, minutesAgo: readonly number[]): fc.Arbitrary<Told> =>
  fc.tuple(fc.tuple(...minutesAgo.map(stepArb)), fc.integer({ min: 0, max: 5 })).map(
    ([steps, lacking]): Told =>
      (firstDeg) =>
        observationsOf(steps, station, firstDeg).slice(0, lacking > 3 ? -lacking : undefined),
  );

const EVERY_FIVE = Array.from({ length: 15 }, (_, i) => 70 - i * 5);

export interface WatchScenario {
  readonly input: WatchInput;
}

/** Judged at 13:00 in fair weather; `stations` chooses which of mast, foreman and airport there are. */
export const watchScenarioArb: fc.Arbitrary<WatchScenario> = fc
  .record({
    place: placeArb,
    mast: toldArb(ON_SITE.id, EVERY_FIVE),
    foreman: toldArb(PERSON.id, [65, 40, 12]),
    airport: toldArb(AIRPORT.id, [127, 67, 7]),
    stations: fc.constantFrom([ON_SITE], [ON_SITE, AIRPORT], [ON_SITE, PERSON, AIRPORT], [AIRPORT]),
    firstDeg: fc.integer({ min: 1, max: 360 }),
    briefedOffDeg: fc.option(fc.constantFrom(0, 0, 0, 20, 50, 90, 180), { freq: 8 }),
  })
  .map(({ place, mast, foreman, airport, stations, firstDeg, briefedOffDeg }) => ({
    input: watchInput({
      planned: {
        site: siteWith({ protected: [place] }),
        limits: LIMITS,
        weather: { windDirection: firstDeg },
      },
      burn: {
        ...OPEN_BURN,
        briefedFromDeg: briefedOffDeg === null ? null : (firstDeg + briefedOffDeg) % 360 || 360,
      },
      stations,
      observations: [mast, foreman, airport].flatMap((told) => told(firstDeg)),
    }),
  }));
