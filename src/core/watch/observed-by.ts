// Which station speaks for the site on a question, whose word counts beside it on the strict side, and what silence means.

import type { Verdict } from '#core/rules/finding.ts';
import { type ChosenStation, chooseStation, outOfReach, type Watched } from './choose-station.ts';
import type { Condition, ConditionCode, ConditionFigures } from './condition.ts';
import type { Reading } from './latch.ts';
import type { Observation } from './observation.ts';
import type { Station } from './station.ts';
import { usableWind } from './usable-wind.ts';
import type { WatchContext } from './watch-context.ts';

export type Tells = (observation: Observation, station: Station) => boolean;

export const chosenFor = ({ watched, nowMs, settings }: WatchContext, tells: Tells): ChosenStation =>
  chooseStation(watched, tells, nowMs, settings);

export const tellsWind: Tells = (o, station) => usableWind(o, station).kind !== 'missing';

/**
 * Whose word makes it worse: the chosen one, all ranked before it though they are doubted, and everybody at the pit. Better
 * comes from the chosen one alone.
 */
export function strictWatched({ watched, settings }: WatchContext, { chosen }: ChosenStation): Watched[] {
  const end = chosen === null ? watched.length : watched.indexOf(chosen) + 1;
  return watched.filter(
    ({ station }, i) => outOfReach(station, settings) === null && (i < end || station.kind !== 'near'),
  );
}

/**
 * What counts while nobody can say: hold where somebody has told it, now or before; where nobody here tells it at all, what
 * the site has chosen, which leaves it to the forecast or holds.
 */
export function whileUnknown(
  { before, settings, watched }: WatchContext,
  code: ConditionCode,
  subject: string,
  tells: Tells,
): Verdict {
  if (settings.unobserved === 'hold') return 'hold';
  const wasKnown = before.some(
    (c) => c.code === code && c.subject === subject && (c.truth !== 'unknown' || c.verdict !== 'go'),
  );
  const isTold = watched.some(
    ({ station, observations }) =>
      outOfReach(station, settings) === null && observations.some((o) => tells(o, station)),
  );
  return wasKnown || isTold ? 'hold' : 'go';
}

/** The wind of a station as of now, for texts. */
export function windFigures(
  watched: Watched | null,
): Pick<ConditionFigures, 'windFromDeg' | 'windSpeedMps' | 'gustMps' | 'station'> {
  const newest = watched?.winds.at(-1);
  return {
    windFromDeg: newest?.recent.fromDeg ?? null,
    windSpeedMps: newest?.recent.speedMps ?? null,
    gustMps: newest?.observation.gustMps ?? null,
    station: watched?.station.id ?? null,
  };
}

/** The condition of the evaluation before, where it was raised and is not known to be over: what was never raised rests on nothing. */
export const raisedBefore = (
  { before }: WatchContext,
  code: ConditionCode,
  subject: string,
): (Condition & { readonly asOfMs: number }) | null =>
  before.find(
    (c): c is Condition & { readonly asOfMs: number } =>
      c.code === code && c.subject === subject && c.truth !== 'false' && c.asOfMs !== null,
  ) ?? null;

/** The station that a reading is of. */
export const watchedOf = ({ watched }: WatchContext, reading: Reading | null): Watched | null =>
  watched.find(({ station }) => station.id === reading?.station) ?? null;
