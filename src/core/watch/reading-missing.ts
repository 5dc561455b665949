// Something that was measured here and is told no more, though stations still tell: a vane, a humidity sensor that is gone.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { outOfReach, type Watched } from './choose-station.ts';
import type { Condition } from './condition.ts';
import { limitsInForce } from './limits-in-force.ts';
import { makeCondition } from './make-condition.ts';
import { chosenFor, raisedBefore, type Tells, tellsWind, whileUnknown } from './observed-by.ts';
import { OBSERVABLE, observedValue } from './observed-value.ts';
import { usableWind } from './usable-wind.ts';
import type { WatchContext } from './watch-context.ts';

const CODE = 'reading-missing';
const WIND = 'wind';

interface Need {
  readonly subject: string;
  readonly element: Element;
  readonly tells: Tells;
}

const tellsSpeed: Tells = (o, station) => {
  const wind = usableWind(o, station);
  return wind.kind !== 'missing' || wind.speedMps !== null;
};

/**
 * `reading-missing` for the wind, which the watch needs in any case, and for each other element with a limit in force: a hold
 * where it was told here and no station that is believed tells it now. Where no station is believed at all, that is told by
 * the stations themselves.
 */
export function readingMissing(context: WatchContext): Condition[] {
  const limited = new Set(limitsInForce(context).map(({ element }) => element));
  const others = OBSERVABLE.filter((e) => limited.has(e) && e !== 'windSpeed' && e !== 'windDirection');
  return [ofWind(context), ...others.map((element) => ofElement(context, element))];
}

/** The direction is missed where the speed is told; where neither is, the wind. */
function ofWind(context: WatchContext): Condition {
  const isSpeedTold = chosenFor(context, tellsSpeed).chosen !== null;
  const element = isSpeedTold ? 'windDirection' : 'windSpeed';
  return ofNeed(context, { subject: WIND, element, tells: tellsWind });
}

function ofElement(context: WatchContext, element: Element): Condition {
  return ofNeed(context, {
    subject: element,
    element,
    // A gust of which only the least is known is none that is told.
    tells: (o, station) =>
      (observedValue(element, o, station, context.settings)?.high ?? Number.POSITIVE_INFINITY) <
      ELEMENTS[element].most,
  });
}

function ofNeed(context: WatchContext, { subject, element, tells }: Need): Condition {
  const { nowMs, settings } = context;
  const last = lastTold(context, tells);
  const was = raisedBefore(context, CODE, subject);
  const figures = {
    element,
    wasMs: last?.atMs ?? was?.figures.wasMs ?? null,
    station: last?.watched.station.id ?? was?.figures.station ?? null,
  };
  const text = {
    subject,
    basis: 'record' as const,
    asOfMs: figures.wasMs,
    clearsForMs: settings.clearsForMin * MINUTE_MS,
    validUntilMs: nowMs + HOUR_MS,
    figures,
  };
  if (chosenFor(context, tells).chosen !== null) {
    return makeCondition(CODE, { ...text, truth: 'false', verdict: 'hold' });
  }
  const verdict = whileUnknown(context, CODE, subject, tells);
  const isRaised = was?.truth === 'true' || (verdict === 'hold' && hasBelieved(context));
  return makeCondition(CODE, { ...text, truth: isRaised ? 'true' : 'unknown', verdict });
}

const inReach = ({ watched, settings }: WatchContext): Watched[] =>
  watched.filter(({ station }) => outOfReach(station, settings) === null);

const hasBelieved = (context: WatchContext): boolean =>
  inReach(context).some(({ health }) => health.state === 'good');

function lastTold(context: WatchContext, tells: Tells): { watched: Watched; atMs: number } | null {
  const lasts = inReach(context).flatMap((watched) => {
    const o = watched.observations.findLast((it) => it.quality !== 'doubtful' && tells(it, watched.station));
    return o ? [{ watched, atMs: o.observedAtMs }] : [];
  });
  return lasts.sort((a, b) => b.atMs - a.atMs)[0] ?? null;
}
