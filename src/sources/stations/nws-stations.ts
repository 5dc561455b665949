// Stations of the NWS API: those that the operator names, and the nearest ones. Every station is asked once, however
// many sites it serves.

import { DAY_MS, HOUR_MS, MINUTE_MS } from '#core/units/time.ts';
import { messageOf } from '#errors.ts';
import type { NwsContext, PullLimits } from '#sources/nws/context.ts';
import { makeFaults } from './faults.ts';
import { askStation, askStationsNear, listKey } from './nws-ask.ts';
import { readNwsObservation } from './nws-observation.ts';
import { makeRecentObservations, type RecentObservations } from './nws-recent.ts';
import { type ListedStation, locatedStation, nearestOf } from './nws-station-list.ts';
import type {
  ObservationReading,
  PolledObservations,
  SiteObservation,
  SiteStation,
  SourceMaker,
  SourceStation,
} from './observation-source.ts';

export const nwsStations: SourceMaker = (stations, { nws }) => {
  const own = stations.filter(({ source }) => source.kind === 'nws' || source.kind === 'nws-near');
  return own.length === 0 || nws === null ? [] : [makeNwsStations(own, nws)];
};

/** One station of one site, as it is asked. */
interface Target extends SiteStation {
  readonly stationId: string;
}

/** No question of one reading takes longer, retries included. */
const DEADLINE_MS = 2 * MINUTE_MS;

function makeNwsStations(stations: readonly SourceStation[], context: NwsContext): PolledObservations {
  const locate = makeLocating(context);
  const recent = makeRecentObservations(context);
  return {
    way: 'polled',
    name: 'nws',
    async read(signal, wanted = () => true) {
      const limits: PullLimits = { deadlineMs: context.nowMs() + DEADLINE_MS, signal };
      const faults = makeFaults();
      const asked = stations.filter(({ site }) => wanted(site));
      const found = await Promise.all(asked.map((station) => locate(station, limits, faults.of)));
      signal?.throwIfAborted();
      const targets = found.flat();
      const observations = await readAll(targets, recent, limits, faults.of);
      signal?.throwIfAborted();
      const located = targets.map(({ site, station }) => ({ site, station }));
      return { observations, stations: located, faults: faults.rows() } satisfies ObservationReading;
    },
  };
}

type FaultsOf = ReturnType<typeof makeFaults>['of'];
type Locate = (station: SourceStation, limits: PullLimits, faultsOf: FaultsOf) => Promise<Target[]>;

/** Where stations lie changes seldom: asked for once a day, and what was known serves where asking fails. */
function makeLocating(context: NwsContext): Locate {
  const near = makeDaily<ListedStation[]>(context.nowMs);
  const named = makeDaily<ListedStation | null>(context.nowMs);

  return async ({ site, station, source, place, siteElevationM: elevation }, limits, faultsOf) => {
    const siteElevationM = elevation();
    const { tally } = faultsOf(site, station.id);
    const asked = (fault: unknown) => tally.add('not-located', source.kind, messageOf(fault));
    if (source.kind === 'nws') {
      const { stationId } = source;
      const key = `${stationId} ${listKey(place)}`;
      const listed = await named(key, () => askStation(context, stationId, place, limits), asked);
      if (listed === null) tally.add('unknown-station', source.kind, stationId);
      const known = listed ? locatedStation(station, listed, siteElevationM) : station;
      return [{ site, station: known, stationId }];
    }
    if (source.kind !== 'nws-near') return [];
    const listed = await near(listKey(place), () => askStationsNear(context, place, limits), asked);
    const nearest = nearestOf(listed ?? [], source, siteElevationM);
    if (listed && nearest.length === 0) tally.add('none-near', source.kind, `${listed.length} listed`);
    return nearest.map((one) => {
      const located = locatedStation(station, one, siteElevationM);
      const id = `${station.id}-${one.stationId.toLowerCase()}`;
      return { site, station: { ...located, id }, stationId: one.stationId };
    });
  };
}

/** Asks once a day; equal questions at the same time are one. After a failure what was known serves, if anything. */
function makeDaily<T>(nowMs: () => number) {
  const known = new Map<string, { readonly atMs: number; readonly value: T }>();
  const underWay = new Map<string, Promise<T>>();
  return async (key: string, ask: () => Promise<T>, failed: (fault: unknown) => void): Promise<T | null> => {
    const before = known.get(key);
    if (before && nowMs() - before.atMs < DAY_MS) return before.value;
    const asking = underWay.get(key) ?? ask();
    underWay.set(key, asking);
    try {
      const value = await asking;
      known.set(key, { atMs: nowMs(), value });
      return value;
    } catch (fault) {
      failed(fault);
      return before?.value ?? null;
    } finally {
      underWay.delete(key);
    }
  };
}

async function readAll(
  targets: readonly Target[],
  recent: RecentObservations,
  limits: PullLimits,
  faultsOf: FaultsOf,
): Promise<SiteObservation[]> {
  const byId = Map.groupBy(targets, ({ stationId }) => stationId);
  const read = await Promise.all(
    [...byId].map(async ([stationId, served]) => {
      const periodMs = Math.min(...served.map(({ station }) => station.periodMin)) * MINUTE_MS;
      const told = await recent(stationId, periodMs, limits).catch((fault: unknown) => {
        for (const { site, station } of served) {
          faultsOf(site, station.id).tally.add('not-answered', stationId, messageOf(fault));
        }
        return null;
      });
      if (told === null) return [];
      return served.flatMap((target) => observationsFor(target, told, faultsOf));
    }),
  );
  return read.flat();
}

/** Oldest of what is passed on: the watch looks no farther back [ms]. */
const PASSED_ON_MS = 3 * HOUR_MS;

function observationsFor(
  { site, station, stationId }: Target,
  told: Awaited<ReturnType<RecentObservations>>,
  faultsOf: FaultsOf,
): SiteObservation[] {
  const { tally } = faultsOf(site, station.id);
  if (told.features.length === 0) tally.add('silent', stationId, 'no observation');
  if (told.hole !== null) tally.add('hole-not-filled', stationId, told.hole);
  if (told.cached) tally.add('kept-by-a-cache', stationId, 'a fresh answer was newer');
  const found: SiteObservation[] = [];
  for (const feature of told.features) {
    const options = { stationId, station, receivedAtMs: told.receivedAtMs };
    const { observation, faults } = readNwsObservation(feature, options);
    for (const { kind, where, example, count } of faults) tally.add(kind, where, example, count);
    if (observation) found.push({ site, observation });
  }
  found.sort((a, b) => a.observation.observedAtMs - b.observation.observedAtMs);
  const newestMs = found.at(-1)?.observation.observedAtMs ?? 0;
  // The newest is always passed on, however old: that it is old must be seen.
  return found.filter(
    ({ observation }) =>
      observation.observedAtMs === newestMs || observation.observedAtMs > told.receivedAtMs - PASSED_ON_MS,
  );
}
