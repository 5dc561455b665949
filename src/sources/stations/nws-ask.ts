// The questions about stations that the NWS API answers. Freshness is judged by the time in the answer: caches on the
// way have kept observations for half a day.

import { placeKey } from '#core/site/place-key.ts';
import type { Place } from '#core/site/site.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { ServiceError } from '#errors.ts';
import { getPath, type NwsContext, type PullLimits, statusOf } from '#sources/nws/context.ts';
import { isObject, parseJson } from '#sources/nws/json.ts';
import { placePath, readPoint } from '#sources/nws/point.ts';
import { type ListedStation, readStations } from './nws-station-list.ts';

/** A copy of ours is believed for no longer without asking, whatever its max-age [ms]. */
const BELIEVED_MS = MINUTE_MS;

/** Stations near a place, nearest first: by the address that its point gives, otherwise by that of its cell. */
export async function askStationsNear(
  context: NwsContext,
  place: Place,
  limits: PullLimits,
): Promise<ListedStation[]> {
  const { bytes } = await getPath(context, `/points/${placePath(place)}`, limits);
  const { gridpointPath } = readPoint(bytes, place);
  const path = stationsPath(bytes) ?? `${gridpointPath}/stations`;
  return await readOrForget(context, path, limits, (answer) => readStations(answer, place));
}

/** The path alone: the service may stand behind another address than the one that it writes. */
function stationsPath(bytes: Uint8Array): string | null {
  const document = parseJson(bytes, 'the points answer');
  const properties = isObject(document) ? document['properties'] : null;
  const url = isObject(properties) ? properties['observationStations'] : null;
  const match =
    typeof url === 'string'
      ? /^https?:\/\/[^/]+(\/gridpoints\/[A-Z]{2,4}\/\d{1,5},\d{1,5}\/stations)$/.exec(url)
      : null;
  return match?.[1] ?? null;
}

/** One station by its name; null where the service does not know it. */
export async function askStation(
  context: NwsContext,
  stationId: string,
  place: Place,
  limits: PullLimits,
): Promise<ListedStation | null> {
  try {
    const path = `/stations/${stationId}`;
    const found = await readOrForget(context, path, limits, (answer) => readStations(answer, place));
    return found.find((station) => station.stationId === stationId) ?? null;
  } catch (fault) {
    if (statusOf(fault) === 404) return null;
    throw fault;
  }
}

export const listKey = (place: Place): string => placeKey(place);

/** The newest observation as a list of one, or none. `anew`: past all caches. */
export async function askLatest(
  context: NwsContext,
  stationId: string,
  limits: PullLimits,
  anew: boolean,
): Promise<readonly unknown[]> {
  try {
    const path = `/stations/${stationId}/observations/latest`;
    return await readOrForget(context, path, limits, readObservations, anew);
  } catch (fault) {
    // A station that has not told anything for days has no latest observation.
    if (statusOf(fault) === 404) return [];
    throw fault;
  }
}

/** Everything since an instant, in any order; an answer without any is no fault. */
export async function askSince(
  context: NwsContext,
  stationId: string,
  sinceMs: number,
  limits: PullLimits,
): Promise<readonly unknown[]> {
  const start = new Date(Math.floor(sinceMs / 1000) * 1000).toISOString().replace('.000Z', 'Z');
  const path = `/stations/${stationId}/observations?start=${start}`;
  return await readOrForget(context, path, limits, readObservations);
}

function readObservations(bytes: Uint8Array): readonly unknown[] {
  const document = parseJson(bytes, 'the observations answer');
  if (isObject(document) && Array.isArray(document['features'])) return document['features'];
  if (isObject(document) && document['type'] === 'Feature') return [document];
  throw new ServiceError('source_unreadable', 'the answer is no list of observations');
}

/** A body that could not be read must not stay for the next conditional request. */
async function readOrForget<T>(
  context: NwsContext,
  path: string,
  limits: PullLimits,
  read: (bytes: Uint8Array) => T,
  anew = false,
): Promise<T> {
  const { bytes } = await getPath(context, path, limits, { anew, freshForMostMs: BELIEVED_MS });
  try {
    return read(bytes);
  } catch (fault) {
    context.http.forget(`${context.baseUrl}${path}`);
    throw fault;
  }
}
