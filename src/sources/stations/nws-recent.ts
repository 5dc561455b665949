// What a station of the NWS API told lately: the latest observation, and the list since the last reading where it may
// have holes.

import { parseInstantMs } from '#core/units/local-time.ts';
import { HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import type { NwsContext, PullLimits } from '#sources/nws/context.ts';
import { isObject } from '#sources/nws/json.ts';
import { isAhead } from './ahead.ts';
import { askLatest, askSince } from './nws-ask.ts';

export interface Recent {
  readonly features: readonly unknown[];
  readonly receivedAtMs: number;
  /** True where the first answer was an old one out of a cache. */
  readonly cached: boolean;
  /** Why a hole could not be filled; null where there is none. */
  readonly hole: string | null;
}

export type RecentObservations = (stationId: string, periodMs: number, limits: PullLimits) => Promise<Recent>;

/** A first reading looks back so far, and no later one farther [ms]. */
const LOOK_BACK_MS = 2 * HOUR_MS;
/** Older than so many periods it is stale. */
const STALE_PERIODS = 2.5;
/** Stations tell every five minutes at best: a latest one that comes later after the one before may hide others [ms]. */
const HOLE_MS = 7 * MINUTE_MS;

/**
 * Remembers how far each station was read. Throws ServiceError `source_…` where the station cannot be asked; where only
 * the list cannot be had, the latest observation alone is given.
 */
export function makeRecentObservations(context: NwsContext): RecentObservations {
  const newest = new Map<string, number>();
  /** Stations whose latest observation stayed old even past all caches, with its time. */
  const stayedOld = new Map<string, number>();

  const latestOf = async (stationId: string, staleMs: number, limits: PullLimits) => {
    const first = await askLatest(context, stationId, limits, false);
    const firstMs = newestMs(first, context.nowMs());
    const old = firstMs === null || context.nowMs() - firstMs > staleMs;
    if (!old || stayedOld.get(stationId) === (firstMs ?? 0)) return { features: first, cached: false };
    const second = await askLatest(context, stationId, limits, true);
    const secondMs = newestMs(second, context.nowMs());
    if (secondMs !== null && secondMs > (firstMs ?? 0)) return { features: second, cached: firstMs !== null };
    stayedOld.set(stationId, firstMs ?? 0);
    return { features: first, cached: false };
  };

  return async (stationId, periodMs, limits) => {
    const { features, cached } = await latestOf(stationId, STALE_PERIODS * periodMs, limits);
    const latestMs = newestMs(features, context.nowMs());
    const before = newest.get(stationId) ?? null;
    const isHole = latestMs !== null && before !== null && latestMs - before > HOLE_MS;
    const mayMiss = before === null || latestMs === null || isHole || features.some(lacksWind);
    const sinceMs = Math.max(before ?? 0, context.nowMs() - LOOK_BACK_MS);
    let list: readonly unknown[] = [];
    let hole: string | null = null;
    try {
      if (mayMiss) list = await askSince(context, stationId, sinceMs, limits);
    } catch (fault) {
      hole = messageOf(fault);
    }
    const all = onePerMoment([...list, ...features]);
    const receivedAtMs = context.nowMs();
    const lastMs = newestMs(all, receivedAtMs);
    // A hole that could not be filled is asked for again.
    if (lastMs !== null && hole === null) newest.set(stationId, Math.max(lastMs, before ?? 0));
    return { features: all, receivedAtMs, cached, hole };
  };
}

const propertiesOf = (feature: unknown) =>
  isObject(feature) && isObject(feature['properties']) ? feature['properties'] : {};

function timeOf(feature: unknown): number | null {
  const { timestamp } = propertiesOf(feature);
  return typeof timestamp === 'string' ? parseInstantMs(timestamp) : null;
}

/** A time from the future is none: it would hide all that comes before it. */
const newestMs = (features: readonly unknown[], nowMs: number): number | null =>
  features.reduce<number | null>((newest, feature) => {
    const ms = timeOf(feature);
    return ms !== null && !isAhead(ms, nowMs) && (newest === null || ms > newest) ? ms : newest;
  }, null);

/** Five-minute observations come with blanks that the hourly one fills (weather-gov/api#168). */
function lacksWind(feature: unknown): boolean {
  const { windSpeed } = propertiesOf(feature);
  return !isObject(windSpeed) || typeof windSpeed['value'] !== 'number';
}

/**
 * The list and the latest disagree on what is null (weather-gov/api#66): of two of one moment a correction counts, or else
 * the fuller one.
 */
function onePerMoment(features: readonly unknown[]): unknown[] {
  const best = new Map<string, unknown>();
  for (const [i, feature] of features.entries()) {
    const key = String(timeOf(feature) ?? `untimed ${i}`);
    const before = best.get(key);
    if (before === undefined || worthOf(feature) > worthOf(before)) best.set(key, feature);
  }
  return [...best.values()];
}

/** No observation has as many values as a correction is worth. */
const CORRECTION = 1_000;

function worthOf(feature: unknown): number {
  const properties = propertiesOf(feature);
  const { rawMessage } = properties;
  const corrects = typeof rawMessage === 'string' && /\sCOR\s/.test(rawMessage);
  const values = Object.values(properties).filter(
    (told) => isObject(told) && typeof told['value'] === 'number',
  ).length;
  return values + (corrects ? CORRECTION : 0);
}
