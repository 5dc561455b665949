// Hours → the intervals in which the NWS API writes a layer: equal hours in a row are one interval.

import { DAY_MS, HOUR_MS } from '#core/units/time.ts';

export interface LayerEntry<T> {
  /** ISO 8601 `start/duration`, UTC. */
  readonly validTime: string;
  readonly value: T;
}

/** Instant as the API writes it: to the second, with a numeric offset. */
export const instantText = (ms: number): string => `${new Date(ms).toISOString().slice(0, 19)}+00:00`;

/** `P1DT6H`, `P2D`, `PT3H` of a whole number of hours. */
export function durationText(ms: number): string {
  const days = Math.floor(ms / DAY_MS);
  const hours = Math.round((ms - days * DAY_MS) / HOUR_MS);
  return `P${days > 0 ? `${days}D` : ''}${hours > 0 ? `T${hours}H` : ''}`;
}

export const intervalText = (fromMs: number, toMs: number): string =>
  `${instantText(fromMs)}/${durationText(toMs - fromMs)}`;

/** Hour by hour from `fromMs` to `toMs`; equal values that follow on each other are joined. */
export function runLength<T>(fromMs: number, toMs: number, valueAt: (ms: number) => T): LayerEntry<T>[] {
  const entries: LayerEntry<T>[] = [];
  let startMs = fromMs;
  while (startMs < toMs) {
    const value = valueAt(startMs);
    const text = JSON.stringify(value);
    let endMs = startMs + HOUR_MS;
    while (endMs < toMs && JSON.stringify(valueAt(endMs)) === text) endMs += HOUR_MS;
    entries.push({ validTime: intervalText(startMs, endMs), value });
    startMs = endMs;
  }
  return entries;
}

/** Amounts: one interval per block of six hours UTC, cut to the span, never joined. */
export function sixHourSums(
  fromMs: number,
  toMs: number,
  amountAt: (ms: number) => number,
): LayerEntry<number>[] {
  const entries: LayerEntry<number>[] = [];
  let startMs = fromMs;
  while (startMs < toMs) {
    const endMs = Math.min(toMs, sixHourBlock(startMs) + SIX_HOURS_MS);
    let sum = 0;
    for (let ms = startMs; ms < endMs; ms += HOUR_MS) sum += amountAt(ms);
    entries.push({ validTime: intervalText(startMs, endMs), value: Math.round(sum * 1000) / 1000 });
    startMs = endMs;
  }
  return entries;
}

export const SIX_HOURS_MS = 6 * HOUR_MS;

/** Beginning of the six-hour block UTC that holds an instant. */
export const sixHourBlock = (ms: number): number => Math.floor(ms / SIX_HOURS_MS) * SIX_HOURS_MS;
