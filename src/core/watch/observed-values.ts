// All that a station told of an element, each value at its own moment.

import type { Element } from '#core/series/elements.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Watched } from './choose-station.ts';
import { type ObservedValue, observedPeak, observedValue } from './observed-value.ts';
import type { WatchSettings } from './watch-settings.ts';

export interface ValueAt extends ObservedValue {
  readonly atMs: number;
  readonly isDoubted: boolean;
  /** A peak wind of before the observation that tells it, and whether that came long after it; null: no such. */
  readonly peak: 'fresh' | 'late' | null;
}

/** In order of the observations; a peak before the observation that tells it. */
export function observedValues(
  element: Element,
  { observations, station }: Watched,
  settings: WatchSettings,
): ValueAt[] {
  return observations.flatMap((o): ValueAt[] => {
    const isDoubted = o.quality === 'doubtful';
    const value = observedValue(element, o, station, settings);
    const peak = element === 'windGust' ? observedPeak(o, station, settings) : null;
    const lateMs = settings.lateMin * MINUTE_MS;
    return [
      ...(peak
        ? [
            {
              ...peak,
              isDoubted,
              peak: o.receivedAtMs - peak.atMs > lateMs ? ('late' as const) : ('fresh' as const),
            },
          ]
        : []),
      ...(value ? [{ ...value, atMs: o.observedAtMs, isDoubted, peak: null }] : []),
    ];
  });
}
