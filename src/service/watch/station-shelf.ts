// The stations of all sites: those that are configured, read anew where a definition has changed, and those that a source
// has found.

import { stationsOf } from '#config/stations.ts';
import type { Station } from '#core/watch/station.ts';
import type { ConfiguredStation } from '#core/watch/station-source.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SiteDefinition } from '#memory/site-definition.ts';
import type { SiteStation, SourceStation } from '#sources/stations/observation-source.ts';

export interface StationShelf {
  /** As the watch ranks them. */
  of(siteKey: string): readonly Station[];
  /** Entries for the nearest ones of which nothing was found since the start. */
  unfound(siteKey: string): readonly Station[];
  /** Entries to which the source has answered that there are none in reach. */
  noneNear(siteKey: string): readonly Station[];
  configured(siteKey: string): readonly ConfiguredStation[];
  named(siteKey: string, id: string): ConfiguredStation | null;
  /** All that are configured, for the sources. */
  all(): readonly SourceStation[];
  /** What a source found, or knows better now. */
  found(stations: readonly SiteStation[]): void;
  /** For these entries the source has answered, and there are none. */
  none(entries: readonly { readonly site: string; readonly station: string }[]): void;
}

export function createStationShelf(mirror: Pick<Mirror, 'book' | 'state'>): StationShelf {
  /** Of the ground of its cell: a pit lies no more than a hill away from that. */
  const elevationOf = (siteKey: string) => (): number | null =>
    mirror.state(siteKey).held?.forecast.groundElevationM ?? null;
  const configured = new WeakMap<SiteDefinition, readonly ConfiguredStation[]>();
  const discovered = new Map<string, Map<string, Station>>();
  /** Of a definition as it is: where a site is moved its entries are others. */
  const answeredNone = new WeakSet<ConfiguredStation>();
  const own = (siteKey: string): readonly ConfiguredStation[] => {
    const definition = mirror.book().sites.get(siteKey);
    if (definition === undefined) return [];
    const known = configured.get(definition);
    if (known) return known;
    const [latDeg, lonDeg] = definition.fields.at;
    const made = stationsOf(definition.fields.stations, { latDeg, lonDeg });
    configured.set(definition, made);
    return made;
  };
  const entriesOf = (siteKey: string, isAnswered: boolean): readonly Station[] => {
    const found = [...(discovered.get(siteKey)?.keys() ?? [])];
    return own(siteKey)
      .filter((one) => one.source.kind === 'nws-near' && answeredNone.has(one) === isAnswered)
      .map(({ station }) => station)
      .filter((station) => !found.some((id) => id.startsWith(`${station.id}-`)));
  };
  return {
    of(siteKey) {
      const better = discovered.get(siteKey) ?? new Map<string, Station>();
      // The nearest ones are stations of their own, each by what was found.
      const plain = own(siteKey)
        .filter(({ source }) => source.kind !== 'nws-near')
        .map(({ station }) => better.get(station.id) ?? station);
      const ids = new Set(plain.map(({ id }) => id));
      return [
        ...plain,
        ...[...better.values()].filter(({ id }) => !ids.has(id) && isOfNear(own(siteKey), id)),
      ];
    },
    unfound: (siteKey) => entriesOf(siteKey, false),
    noneNear: (siteKey) => entriesOf(siteKey, true),
    configured: own,
    named: (siteKey, id) => own(siteKey).find(({ station }) => station.id === id) ?? null,
    all: () =>
      [...mirror.book().sites].flatMap(([site, { fields }]) => {
        const [latDeg, lonDeg] = fields.at;
        return own(site).map((one) => ({
          ...one,
          site,
          place: { latDeg, lonDeg },
          siteElevationM: elevationOf(site),
        }));
      }),
    none(entries) {
      for (const { site, station: id } of entries) {
        const entry = own(site).find(({ station }) => station.id === id);
        if (entry !== undefined) answeredNone.add(entry);
      }
    },
    found(stations) {
      for (const { site, station } of stations) {
        const ofSite = discovered.get(site) ?? new Map<string, Station>();
        discovered.set(site, ofSite.set(station.id, station));
      }
    },
  };
}

/** True where the station was found for an entry that is still configured. */
const isOfNear = (own: readonly ConfiguredStation[], id: string): boolean =>
  own.some(({ source, station }) => source.kind === 'nws-near' && id.startsWith(`${station.id}-`));
