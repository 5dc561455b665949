// The gust of a report and the peak wind of its remarks, each at its own time.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Observation } from '#core/watch/observation.ts';

export interface PeakWind {
  readonly atMs: number;
  readonly speedMps: number;
  readonly fromDeg: number;
}

/** Gust is of the ten minutes before the observation, peak wind of the time since the hourly report (FMH-1, 5.4.4, 5.4.5). */
const GUST_MS = 10 * MINUTE_MS;

/** A peak within the minutes of the gust is one; an older one keeps its time, so that it is no gust of now. */
export function gustAndPeak({
  gustMps,
  observedAtMs,
  peakWind,
}: {
  readonly gustMps: number | null;
  readonly observedAtMs: number;
  readonly peakWind: PeakWind | null;
}): Pick<Observation, 'gustMps' | 'peak'> {
  if (peakWind === null) return { gustMps };
  const { atMs, speedMps } = peakWind;
  if (atMs >= observedAtMs - GUST_MS) return { gustMps: Math.max(speedMps, gustMps ?? 0) };
  return { gustMps, peak: { atMs, speedMps } };
}
