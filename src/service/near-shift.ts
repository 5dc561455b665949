// Whether a site is watched more closely now: its shift lasts, or begins soon. Asked for thousands of sites at each scrape,
// and true or false for hours, so that each answer is kept until it may change.

import { localDaysFrom } from '#core/site/local-day.ts';
import { shiftsOn } from '#core/site/shift.ts';
import type { Shift } from '#core/site/site.ts';
import { addDays, localDateAt } from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';

export type NearShift = (shifts: readonly Shift[], timeZone: string, nowMs: number) => boolean;

const BEFORE_MS = 3 * HOUR_MS;

interface Kept {
  readonly timeZone: string;
  readonly fromMs: number;
  readonly untilMs: number;
  readonly near: boolean;
}

export function createNearShift(): NearShift {
  const kept = new WeakMap<readonly Shift[], Kept>();
  return (shifts, timeZone, nowMs) => {
    const known = kept.get(shifts);
    if (known && known.timeZone === timeZone && known.fromMs <= nowMs && nowMs < known.untilMs)
      return known.near;
    const found = lookUp(shifts, timeZone, nowMs);
    kept.set(shifts, found);
    return found.near;
  };
}

function lookUp(shifts: readonly Shift[], timeZone: string, nowMs: number): Kept {
  // Yesterday's shift may last until today, and tomorrow's may be near; a day more, since one that ends after is left out.
  const days = localDaysFrom(addDays(localDateAt(nowMs, timeZone), -1), 4, timeZone);
  const spans = shiftsOn(shifts, days, timeZone).map(
    ({ fromMs, toMs }) => [fromMs - BEFORE_MS, toMs] as const,
  );
  const near = spans.some(([fromMs, toMs]) => fromMs <= nowMs && nowMs < toMs);
  const turnsMs = [...spans.flat(), nowMs + 24 * HOUR_MS].filter((ms) => ms > nowMs);
  return { timeZone, fromMs: nowMs, untilMs: Math.min(...turnsMs), near };
}
