// The list of stations near a point, and one station by name, as the NWS API gives them. Ranked by our own distance,
// since the first of a list is not always the nearest (weather-gov/weather.gov#1726).

import type { Place } from '#core/site/site.ts';
import { bearingAndDistance } from '#core/units/direction.ts';
import type { Station } from '#core/watch/station.ts';
import { ServiceError } from '#errors.ts';
import { readElevationM } from '#sources/nws/cell.ts';
import { isObject, parseJson, textOf } from '#sources/nws/json.ts';
import { METAR_AVERAGING_S, METAR_HEIGHT_M } from './metar.ts';

export interface ListedStation {
  readonly stationId: string;
  readonly name: string;
  readonly elevationM: number | null;
  readonly distanceM: number;
  /** Network, `ASOS`, `RAWS` …; null in answers before 2026. */
  readonly provider: string | null;
}

/** What an address may hold in the place of a station's name. */
export const STATION_ID = /^[A-Z0-9]{3,12}$/;

/** Stations of a list, or the one of a single answer, nearest first. Throws ServiceError `source_unreadable`. */
export function readStations(bytes: Uint8Array, place: Place): ListedStation[] {
  const document = parseJson(bytes, 'the stations answer');
  const features = isObject(document) && Array.isArray(document['features']) ? document['features'] : null;
  const single = isObject(document) && document['type'] === 'Feature' ? [document] : null;
  const found = features ?? single;
  if (found === null) throw new ServiceError('source_unreadable', 'the answer is no list of stations');
  return found
    .map((feature) => readStation(feature, place))
    .filter((station) => station !== null)
    .sort((a, b) => a.distanceM - b.distanceM);
}

function readStation(feature: unknown, place: Place): ListedStation | null {
  if (!isObject(feature) || !isObject(feature['properties']) || !isObject(feature['geometry'])) return null;
  const { properties, geometry } = feature;
  const stationId = textOf(properties['stationIdentifier']);
  const at: unknown = geometry['coordinates'];
  if (stationId === null || !STATION_ID.test(stationId) || !Array.isArray(at)) return null;
  const [lonDeg, latDeg] = at as readonly unknown[];
  if (typeof lonDeg !== 'number' || typeof latDeg !== 'number') return null;
  return {
    stationId,
    name: textOf(properties['name']) ?? stationId,
    elevationM: readElevationM(properties),
    distanceM: bearingAndDistance(place, { latDeg, lonDeg }).distanceM,
    provider: textOf(properties['provider']),
  };
}

/**
 * The nearest stations of known instruments: airports and fire weather stations. Private ones stand anywhere, and are
 * asked only where the operator names them. Names of networks: as in recorded answers, RAWS from memory.
 */
export function nearestOf(
  listed: readonly ListedStation[],
  limits: { readonly withinM: number; readonly withinHeightM: number; readonly most: number },
  siteElevationM: number | null,
): ListedStation[] {
  const near = listed.filter((station) => {
    const above = aboveSite(station, siteElevationM);
    const fits = above === null || Math.abs(above) <= limits.withinHeightM;
    return station.distanceM <= limits.withinM && fits && isKnownInstrument(station);
  });
  return near.slice(0, limits.most);
}

const aboveSite = ({ elevationM }: ListedStation, siteElevationM: number | null): number | null =>
  elevationM === null || siteElevationM === null ? null : elevationM - siteElevationM;

const isKnownInstrument = ({ provider, stationId }: ListedStation): boolean =>
  provider === null ? /^[KPT][A-Z]{3}$/.test(stationId) : isAirport(provider) || isFireWeather(provider);

const isAirport = (provider: string): boolean => /^(?:ASOS|AWOS|METAR|.*-MTR)$/i.test(provider);
const isFireWeather = (provider: string): boolean => /^RAWS$/i.test(provider);

/** RAWS: 20 ft, mean of 10 min (NWS definition of 20-foot winds). */
const FIRE_WEATHER = { windHeightM: 6.096, windAveragingS: 600 };
const AIRPORT = { windHeightM: METAR_HEIGHT_M, windAveragingS: METAR_AVERAGING_S };

/** What the operator told of a station, with what the service knows better. */
export function locatedStation(told: Station, listed: ListedStation, siteElevationM: number | null): Station {
  const { provider } = listed;
  const kind = provider !== null && isFireWeather(provider) ? FIRE_WEATHER : null;
  const instrument = kind ?? (isKnownInstrument(listed) ? AIRPORT : null);
  return {
    ...told,
    name: listed.name,
    distanceM: Math.round(listed.distanceM),
    aboveSiteM: aboveSite(listed, siteElevationM) ?? told.aboveSiteM,
    windHeightM: told.windHeightM ?? instrument?.windHeightM ?? null,
    windAveragingS: told.windAveragingS ?? instrument?.windAveragingS ?? null,
  };
}
