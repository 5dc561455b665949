// Nobody measures the wind at this site, and nobody else is expected to: that is no station gone silent, and it is said once.

import { HOUR_MS } from '#core/units/time.ts';
import { isOpen } from './burn-plan.ts';
import { outOfReach, type Watched } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { makeCondition } from './make-condition.ts';
import type { Station } from './station.ts';
import type { WatchContext } from './watch-context.ts';

export const UNMEASURED = 'wind-unmeasured';

/**
 * True where no station is in reach and no meter has been read. A meter that somebody is to read is a hold until it is read,
 * before the light-up too: that is in the hands of the crew. Where stations were written down and none is in reach a fire is a
 * hold. Both unless the site has accepted it. Where no station was ever written down that is left to the forecast.
 */
export function windUnmeasured(context: WatchContext): Condition[] {
  const { before, burn, noneNear, nowMs, settings, stations, unfound } = context;
  const inReach = context.watched.filter(({ station }) => outOfReach(station, settings) === null);
  const meter = inReach.find(({ station }) => station.kind === 'person') ?? null;
  const isMeasured = inReach.some((one) => !isUnread(one, before));
  const was = before.find(({ code }) => code === UNMEASURED);
  // Those that are still to be found were asked for before, perhaps: what was said then stands until they are.
  const isKnown = unfound.length === 0 || was?.truth === 'true';
  const isWrittenDown = stations.length + noneNear.length + unfound.length > 0;
  const isMissed = meter !== null || (isOpen(burn) && isWrittenDown);
  const holds = settings.unobserved === 'hold' || (isMissed && settings.unobserved !== 'accepted');
  const text = {
    truth: isKnown && !isMeasured ? ('true' as const) : ('false' as const),
    verdict: holds ? ('hold' as const) : ('go' as const),
    basis: 'record' as const,
    asOfMs: null,
    validUntilMs: nowMs + HOUR_MS,
    figures: { station: meter?.station.id ?? null },
  };
  return [makeCondition(UNMEASURED, text)];
}

/** A meter that was never read: who carries one has promised no reading. */
export const isUnread = ({ station, health }: Watched, before: readonly Condition[]): boolean =>
  station.kind === 'person' &&
  health.lastMs === null &&
  !before.some((c) => isSilenceOf(c, station) && (c.truth === 'true' || c.asOfMs !== null));

/** As the look before told it: it knows of readings that are older than observations count. */
export const isSilenceOf = ({ code, subject }: Condition, { id }: Station): boolean =>
  code === 'station-silent' && subject === id;
