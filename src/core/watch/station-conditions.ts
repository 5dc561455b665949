// What is wrong with a station: it has gone silent, or it tells what cannot be believed.

import { HOUR_MS } from '#core/units/time.ts';
import { outOfReach } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';

/**
 * `station-silent` and `station-doubted` for each station that may speak for the site, by its id: a hold where none is left
 * that tells the wind, else advice.
 */
export function stationConditions(context: WatchContext): Condition[] {
  const { nowMs, settings } = context;
  const isBlind = chosenFor(context, tellsWind).chosen === null;
  const inReach = context.watched.filter(({ station }) => outOfReach(station, settings) === null);
  return inReach.flatMap(({ station, health }) => {
    const of = (isTrue: boolean, what: string | null) => ({
      subject: station.id,
      truth: isTrue ? ('true' as const) : ('false' as const),
      verdict: isTrue && isBlind ? ('hold' as const) : ('go' as const),
      asOfMs: health.lastMs,
      validUntilMs: nowMs + HOUR_MS,
      figures: { station: station.id, what, wasMs: health.lastMs },
    });
    const isSilent = health.state === 'silent';
    const doubted = health.state === 'frozen' || health.state === 'doubtful' ? health.state : null;
    const doubt = makeCondition('station-doubted', { ...of(doubted !== null, doubted), basis: 'observed' });
    return [
      makeCondition('station-silent', { ...of(isSilent, null), basis: 'record' }),
      // Of one that says nothing, nobody can say whether it can be believed.
      isSilent ? { ...doubt, truth: 'unknown' as const } : doubt,
    ];
  });
}
