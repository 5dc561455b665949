// What each observation says of one bound of a limit, by the same law of the bound as the forecast's hours.

import { boundsOf, type ElementLimit } from '#core/score/limit.ts';
import { CLASS, scoreHours } from '#core/score/score-hours.ts';
import { ELEMENTS } from '#core/series/elements.ts';
import type { Watched } from './choose-station.ts';
import type { Side } from './latch.ts';
import { observedValues } from './observed-values.ts';
import type { SideAt } from './strict-readings.ts';
import type { WatchSettings } from './watch-settings.ts';

/** The limit with one of its bounds alone, so that each is over by itself; `boundIndex` as `boundsOf` counts. */
export function onlyBound(limit: ElementLimit, boundIndex: number): ElementLimit {
  const bound = boundsOf(limit)[boundIndex] ?? null;
  const isStop = boundIndex === 0 || boundIndex === 3;
  const side = { hold: isStop ? null : bound, stop: isStop ? bound : null };
  return boundIndex < 2
    ? { ...limit, atLeast: side, atMost: null }
    : { ...limit, atLeast: null, atMost: side };
}

/** Unit conversion leaves so much. */
const DUST = 1e-9;

/** Beyond where both ends of what a value may mean are; unsure where only one is. */
export function boundReadings(watched: Watched, limit: ElementLimit, settings: WatchSettings): SideAt[] {
  const values = observedValues(limit.element, watched, settings, limit.measured);
  const isLow = limit.atLeast !== null;
  const worst = scoreHours(columnOf(values.map((v) => (isLow ? v.low : v.high))), limit);
  const best = scoreHours(columnOf(values.map((v) => (isLow ? v.high : v.low))), limit);
  const bound = boundsOf(limit).find((b) => b !== null)?.value ?? Number.NaN;
  const margin = settings.limits.clearMargin * Math.max(Math.abs(bound), ELEMENTS[limit.element].roomScale);
  const { most } = ELEMENTS[limit.element];
  return values.flatMap(({ atMs, isDoubted, peak, high }, i): SideAt[] => {
    const side = sideOf(worst.classes[i], best.classes[i], (worst.room[i] as number) >= margin - DUST);
    // Of which only the least is known, it can say no more than that this is beyond.
    if (high >= most && side === 'unsure') return [];
    // A peak of before speaks of its own moment and proves nothing better; told long after, it raises nothing any more.
    if (peak !== null) return side === 'beyond' ? [{ atMs, side: peak === 'late' ? 'near' : side }] : [];
    // A doubted word is never the ground for anything better.
    return [{ atMs, side: isDoubted && side !== 'beyond' ? 'unsure' : side }];
  });
}

function sideOf(worst: number | undefined, best: number | undefined, isClear: boolean): Side {
  if (best === CLASS.hold || best === CLASS.stop) return 'beyond';
  if (best !== CLASS.go || worst !== CLASS.go) return 'unsure';
  return isClear ? 'clear' : 'near';
}

const columnOf = (values: readonly number[]) => ({
  values: Float64Array.from(values),
  missing: new Uint8Array(values.length),
  derived: null,
});
