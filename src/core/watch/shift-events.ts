// Every turn of the wind that is known of: seen in what the chosen station told, or told of by a report in reach itself.

import { MINUTE_MS } from '#core/units/time.ts';
import { outOfReach, type Watched } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { shiftLastsMs } from './shift-lasts.ts';
import type { WatchContext } from './watch-context.ts';
import { isSteady, windOver } from './wind-records.ts';
import { windTurns } from './wind-turns.ts';

export interface ShiftEvent {
  /** When the new wind was first there [epoch ms]. */
  readonly atMs: number;
  readonly betweenMs: readonly [number, number] | null;
  /** The direction before; null where nobody told it. */
  readonly wasFromDeg: number | null;
  /** By which definition; `WSHFT`: a report said so. */
  readonly what: string | null;
  readonly watched: Watched | null;
  readonly lastsMs: number;
  /** The condition that it was raised as, where only that tells of it; else null. */
  readonly was: Condition | null;
}

export interface ShiftEvents {
  /** In order of time. */
  readonly events: readonly ShiftEvent[];
  /** True where there may be one that has not lasted yet. */
  readonly mayBe: boolean;
}

export function shiftEvents(context: WatchContext, chosen: Watched | null, sinceMs: number): ShiftEvents {
  const { nowMs, settings } = context;
  const turns = chosen ? windTurns(chosen, settings, sinceMs) : [];
  const seen = turns
    .filter((t) => t.lasted)
    .map(({ atMs, betweenMs, wasFromDeg }): ShiftEvent => {
      const lastsMs = shiftLastsMs(context, chosen);
      return {
        atMs,
        betweenMs,
        wasFromDeg,
        what: settings.shift.definition,
        watched: chosen,
        lastsMs,
        was: null,
      };
    });
  const lastsMs = shiftLastsMs(context, chosen);
  return {
    // Of one moment the turn that was seen comes last: it tells more.
    events: [...remarks(context, chosen, sinceMs), ...seen].sort((a, b) => a.atMs - b.atMs),
    mayBe: turns.some((t) => !t.lasted && nowMs - t.atMs <= lastsMs),
  };
}

/** Of all stations in reach: a front at the airport is on its way. */
function remarks(context: WatchContext, chosen: Watched | null, sinceMs: number): ShiftEvent[] {
  return context.watched
    .filter(({ station }) => outOfReach(station, context.settings) === null)
    .flatMap((watched) =>
      watched.observations.flatMap(({ windShiftAtMs: atMs }): ShiftEvent[] => {
        const lastsMs = shiftLastsMs(context, watched);
        if (atMs === null || (atMs < sinceMs && context.nowMs - atMs > lastsMs)) return [];
        const wasFromDeg = windBefore(context, chosen ?? watched, atMs);
        return [{ atMs, betweenMs: null, wasFromDeg, what: 'WSHFT', watched, lastsMs, was: null }];
      }),
    );
}

function windBefore({ settings }: WatchContext, { winds }: Watched, atMs: number): number | null {
  const end = winds.findLastIndex((w) => w.atMs < atMs);
  if (end < 0) return null;
  const over = windOver(winds, settings.shift.baselineMin * MINUTE_MS, settings.wind.undefinedBelow, end);
  return isSteady(over, settings) ? over.fromDeg : null;
}
