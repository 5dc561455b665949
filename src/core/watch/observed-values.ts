// All that a station told of an element, each value at its own moment.

import { FORECAST_WIND, type WindMeasure } from '#core/score/limit.ts';
import type { Element } from '#core/series/elements.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import type { Watched } from './choose-station.ts';
import { isOtherWind, type ObservedValue, observedPeak, observedValue } from './observed-value.ts';
import type { WatchSettings } from './watch-settings.ts';

export interface ValueAt extends ObservedValue {
  readonly atMs: number;
  readonly isDoubted: boolean;
  /** A peak wind of before the observation that tells it, and whether that came long after it; null: no such. */
  readonly peak: 'fresh' | 'late' | null;
  /** Measured at another height or over another time than the limit says. */
  readonly isOther: boolean;
}

/** In order of the observations; a peak before the observation that tells it. */
export function observedValues(
  element: Element,
  { observations, station }: Watched,
  settings: WatchSettings,
  of: WindMeasure = FORECAST_WIND,
): ValueAt[] {
  return observations.flatMap((o): ValueAt[] => {
    const isDoubted = o.quality === 'doubtful';
    const isOther = isOtherWind(element, o, station, of);
    const value = observedValue(element, o, station, settings, of);
    const peak = element === 'windGust' ? observedPeak(o, station, settings, of) : null;
    const lateMs = settings.lateMin * MINUTE_MS;
    return [
      ...(peak
        ? [
            {
              ...peak,
              isDoubted,
              isOther,
              peak: o.receivedAtMs - peak.atMs > lateMs ? ('late' as const) : ('fresh' as const),
            },
          ]
        : []),
      ...(value ? [{ ...value, atMs: o.observedAtMs, isDoubted, isOther, peak: null }] : []),
    ];
  });
}
