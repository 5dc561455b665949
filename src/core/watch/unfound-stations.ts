// Stations that are still to be found: after a start nobody knows which they are until their source has answered.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { isOpen } from './burn-plan.ts';
import type { Condition } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import { chosenFor, tellsWind } from './observed-by.ts';
import type { Station } from './station.ts';
import { freshForMs } from './station-health.ts';
import type { WatchContext } from './watch-context.ts';

/**
 * What stood of the stations of such an entry can be judged by nobody, and is not over. While a fire burns the entry is silent
 * itself, told after as long as a station of it may be.
 */
export function unfoundStations(context: WatchContext): Condition[] {
  const { before, burn, unfound } = context;
  return unfound.flatMap((entry) => {
    const stood = before.filter(
      (c) =>
        (c.code === 'station-silent' || c.code === 'station-doubted') &&
        c.subject.startsWith(`${entry.id}-`) &&
        c.truth !== 'false',
    );
    const kept = stood.map((c) => ({
      ...c,
      truth: 'unknown' as const,
      validUntilMs: context.nowMs + HOUR_MS,
    }));
    return isOpen(burn) ? [...kept, silent(context, entry)] : kept;
  });
}

function silent(context: WatchContext, entry: Station): Condition {
  const { nowMs, settings } = context;
  return makeCondition('station-silent', {
    subject: entry.id,
    truth: 'true',
    verdict: chosenFor(context, tellsWind).chosen === null ? 'hold' : 'go',
    basis: 'record',
    asOfMs: null,
    holdsForMs: freshForMs(entry, settings),
    clearsForMs: settings.clearsForMin * MINUTE_MS,
    validUntilMs: nowMs + HOUR_MS,
    figures: { station: entry.id },
  });
}
