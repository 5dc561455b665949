// What is wrong with a station: it has gone silent, or it tells what cannot be believed.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { outOfReach } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { makeCondition, truthOf } from './make-condition.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import type { StationHealth } from './station-health.ts';
import type { WatchContext } from './watch-context.ts';
import { isSilenceOf, isUnread } from './wind-unmeasured.ts';

/**
 * `station-silent` and `station-doubted` for each station that may speak for the site, by its id: a hold where none is left
 * that tells the wind, else advice. Jumps are told of and count, so that they are advice.
 */
export function stationConditions(context: WatchContext): Condition[] {
  const isBlind = chosenFor(context, tellsWind).chosen === null;
  const inReach = context.watched.filter(({ station }) => outOfReach(station, context.settings) === null);
  return inReach.flatMap((one) => {
    const { station, health } = one;
    const isSilent = health.state === 'silent' && !isUnread(one, context.before);
    const jumps = health.spikes >= context.settings.stations.spikesPerHour ? 'jumps' : null;
    const doubted = health.state === 'frozen' || health.state === 'doubtful' ? health.state : jumps;
    const text = (isTrue: boolean, what: string | null) => ({
      subject: station.id,
      verdict: isTrue && isBlind && what !== 'jumps' ? ('hold' as const) : ('go' as const),
      asOfMs: health.lastMs,
      clearsForMs: context.settings.clearsForMin * MINUTE_MS,
      validUntilMs: context.nowMs + HOUR_MS,
      figures: { station: station.id, what, wasMs: health.lastMs, ...stuckFigures(what, health) },
    });
    const silent = text(isSilent, null);
    // When it told last is known for longer than what it told.
    const lastMs = health.lastMs ?? context.before.find((c) => isSilenceOf(c, station))?.asOfMs ?? null;
    return [
      makeCondition('station-silent', {
        ...silent,
        truth: truthOf(isSilent),
        basis: 'record',
        asOfMs: lastMs,
        figures: { ...silent.figures, wasMs: lastMs },
      }),
      makeCondition('station-doubted', {
        ...text(doubted !== null && !isSilent, isSilent ? null : doubted),
        // Of one that says nothing, nobody can say whether it can be believed.
        truth: truthOf(health.state === 'silent' ? null : doubted !== null),
        basis: 'observed',
      }),
    ];
  });
}

/** Not as the wind: what is not believed says nothing of the smoke. */
const stuckFigures = (what: string | null, { stuck }: StationHealth) =>
  what === 'frozen' && stuck !== null ? { wasFromDeg: stuck.fromDeg, value: stuck.speedMps } : {};
