// Where a moment lies on the one axis that the band and all lanes share: in percent of the width, so that the drawing fits
// any screen and its words keep their size.

import { ceilToHour, floorToHour, HOUR_MS, type Span } from '#core/units/time.ts';

export interface TimeScale extends Span {
  /** [% of the width]; moments outside lie on the edge. */
  x(ms: number): number;
}

export function timeScale({ fromMs, toMs }: Span): TimeScale {
  const x = (ms: number): number => {
    const part = (Math.min(toMs, Math.max(fromMs, ms)) - fromMs) / (toMs - fromMs);
    return Math.round(part * 10_000) / 100;
  };
  return { fromMs, toMs, x };
}

const QUARTER_MS = HOUR_MS / 4;

/** From an hour before the first open time to an hour after the last; the whole day where none is open. */
export function openSpan(whole: Span, shut: readonly Span[]): Span {
  const isShut = (ms: number): boolean => shut.some((s) => s.fromMs <= ms && ms + QUARTER_MS <= s.toMs);
  let first = whole.fromMs;
  while (first < whole.toMs && isShut(first)) first += QUARTER_MS;
  if (first >= whole.toMs) return whole;
  let last = first;
  for (let ms = first; ms < whole.toMs; ms += QUARTER_MS) if (!isShut(ms)) last = ms;
  return {
    fromMs: Math.max(whole.fromMs, floorToHour(first - HOUR_MS)),
    toMs: Math.min(whole.toMs, ceilToHour(last + HOUR_MS)),
  };
}
