// Thunder or lightning told of by any station in reach.

import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { outOfReach } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { inOrderOfTime, latch, type Reading } from './latch.ts';
import { makeCondition } from './make-condition.ts';
import { raisedBefore, type Tells, whileUnknown } from './observed-by.ts';
import type { WatchContext } from './watch-context.ts';

const CODE = 'thunder-near';
const tellsThunder: Tells = ({ thunder }) => thunder !== null;

/** `thunder-near`: any in reach makes it true; over only some time after the last, by one that tells of it. */
export function thunderNear(context: WatchContext): Condition {
  const { nowMs, settings, watched } = context;
  const heard = watched
    .filter(({ station }) => outOfReach(station, settings) === null)
    .flatMap(({ observations, health }) =>
      observations.flatMap((o): Reading[] => {
        if (o.thunder === null) return [];
        // A doubted word is never the ground for anything better.
        const none = o.quality === 'doubtful' ? 'unsure' : 'clear';
        const side = o.thunder ? 'beyond' : none;
        return [
          {
            atMs: o.observedAtMs,
            freshUntilMs: o.observedAtMs + health.freshForMs,
            side,
            station: o.station,
          },
        ];
      }),
    );
  const was = raisedBefore(context, CODE, '');
  const clearsForMs = settings.thunder.clearsForMin * MINUTE_MS;
  const { truth, raised, asOfMs } = latch(inOrderOfTime(heard), nowMs, clearsForMs, was);
  const last = heard.filter((r) => r.side === 'beyond').sort((a, b) => b.atMs - a.atMs)[0];
  return makeCondition(CODE, {
    truth,
    verdict: raised ? settings.thunder.verdict : whileUnknown(context, CODE, '', tellsThunder),
    basis: 'observed',
    asOfMs,
    validUntilMs: nowMs + HOUR_MS,
    figures: last ? { atMs: last.atMs, station: last.station } : (was?.figures ?? {}),
  });
}
