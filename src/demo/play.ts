// The simulated shift: when the crew taps, what its instrument measures, when the wind turns, who answers and when it is
// covered. Pure: the same seed and the same plan give the same shift.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { DEMO_CELLS } from './cells.ts';
import type { DemoStation } from './demo-stations.ts';
import { OBSERVED_EVERY_MS, observedWeather } from './observed-weather.ts';
import { vary } from './vary.ts';

export interface PlayPlan {
  readonly lightUpMs: number;
  readonly lastChargeMs: number;
}

/** As an instrument posts it. */
export interface PlayReading {
  readonly windKt: number;
  readonly gustKt: number;
  readonly fromDeg: number;
  readonly humidityPct: number;
}

export interface PlayScenario {
  readonly siteId: string;
  readonly turnAtMs: number;
  readonly taps: readonly { readonly tap: 'lit' | 'charging'; readonly atMs: number }[];
  /** Moments of readings, from shortly before light-up on. */
  readonly firstReadingMs: number;
  readonly everyMs: number;
  reading(atMs: number): PlayReading;
  /** Who answers, so long after the office was asked. */
  readonly answer: { readonly by: 'crew' | 'second' | 'office'; readonly afterMs: number };
  /** So long after the answer the pit is covered. */
  readonly coverAfterMs: number;
  /** Nothing is played after this. */
  readonly endsAtMs: number;
}

const CELL = DEMO_CELLS.find(({ siteId }) => siteId === 'north-block') as (typeof DEMO_CELLS)[number];
/** Smoke of a wind from here goes to the county road of the site. */
const TURNS_TO_DEG = 290;
const CHARGING_AFTER_MS = 20 * MINUTE_MS;
const READS_BEFORE_MS = 15 * MINUTE_MS;
/** Before and after it the turn would be in the way of lighting, and of the last charge. */
const TURNS_AFTER_MS = HOUR_MS;
const TURNS_BEFORE_MS = 30 * MINUTE_MS;
const ANSWERERS = ['crew', 'second', 'office'] as const;

export function playScenario(seed: number, { lightUpMs, lastChargeMs }: PlayPlan): PlayScenario {
  const pick = (what: string, from: number, to: number): number => {
    const half = Math.floor((to - from) / 2);
    return from + half + vary(`${seed} ${what}`, half);
  };
  const earliest = lightUpMs + TURNS_AFTER_MS;
  const roomMin = Math.max(1, Math.floor((lastChargeMs - TURNS_BEFORE_MS - earliest) / MINUTE_MS));
  const turnAtMs = earliest + pick('turn', 0, roomMin) * MINUTE_MS;
  const firstReadingMs = Math.floor((lightUpMs - READS_BEFORE_MS) / OBSERVED_EVERY_MS) * OBSERVED_EVERY_MS;
  return {
    siteId: CELL.siteId,
    turnAtMs,
    taps: [
      { tap: 'lit', atMs: lightUpMs },
      { tap: 'charging', atMs: lightUpMs + CHARGING_AFTER_MS },
    ],
    firstReadingMs,
    everyMs: OBSERVED_EVERY_MS,
    reading: (atMs) => readingAt(seed, atMs, turnAtMs),
    answer: {
      by: ANSWERERS[pick('answers', 0, 2)] ?? 'crew',
      afterMs: pick('answer', 1, 4) * MINUTE_MS,
    },
    coverAfterMs: pick('cover', 20, 32) * MINUTE_MS,
    endsAtMs: turnAtMs + 3 * HOUR_MS,
  };
}

function readingAt(seed: number, atMs: number, turnAtMs: number): PlayReading {
  const mast: DemoStation = {
    id: `mast ${seed}`,
    name: 'mast',
    place: CELL.place,
    elevationM: CELL.elevationM,
    cell: CELL,
  };
  const turn = { siteId: null, atMs: turnAtMs, toDeg: TURNS_TO_DEG };
  const { windKt, gustKt, fromDeg, humidityPct } = observedWeather(mast, atMs, atMs, turn);
  // An instrument tells its largest wind, too, where a report of an airfield would not call it a gust.
  return { windKt, gustKt: gustKt ?? windKt + 1, fromDeg: fromDeg ?? 360, humidityPct };
}
