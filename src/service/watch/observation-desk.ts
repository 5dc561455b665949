// Readings that are posted, and such as sources bring: each by itself, kept and looked at in one step.

import { HOUR_MS } from '#core/units/time.ts';
import type { Observation } from '#core/watch/observation.ts';
import { type Taken, takeObservation } from '#core/watch/take-observation.ts';
import { ServiceError } from '#errors.ts';
import { watchSite } from '#jobs/watch/watch-site.ts';
import type { WatchDeps } from '#jobs/watch/watched-site.ts';
import type { ObservedItem, WatchDesk } from '#publish/watch-desk.ts';
import { type PostedStation, postedObservation } from '#sources/stations/posted-observation.ts';
import { MOST_READINGS, readingsIn } from '#sources/stations/posted-schema.ts';
import type { KeptObservation } from '#store/watch/records.ts';

export interface ObservationDeskDeps extends WatchDeps {
  stationNamed(siteKey: string, id: string): PostedStation | null;
}

/** Of each station. */
const MOST_KEPT = 4000;
/** A day of several stations by the minute. */
const MOST_WITHIN = 10_000;

export function observationDesk(
  deps: ObservationDeskDeps,
): Pick<WatchDesk, 'observe' | 'observations' | 'observedWithin'> {
  return {
    async observe(siteKey, body) {
      const readings = readingsIn(body);
      if (readings === null) {
        const message = `expected a reading, or a list of 1 to ${MOST_READINGS}`;
        throw new ServiceError('bad_body', message, { facts: { faults: [{ path: '(body)', message }] } });
      }
      const receivedAtMs = deps.nowMs();
      const stationNamed = (id: string): PostedStation | null => deps.stationNamed(siteKey, id);
      const read = readings.map((item) => postedObservation(item, { stationNamed, receivedAtMs }));
      const good = read.flatMap(({ observation }) => observation ?? []);
      const taken = await keepObservations(deps, siteKey, good);
      return read.map(({ observation, faults }, index): ObservedItem => {
        const outcome = observation === null ? 'refused' : OUTCOMES[taken.get(observation) ?? 'too-old'];
        const tooOld = { field: 'time', message: 'is too old to be watched by' };
        const fault = faults[0] ?? (outcome === 'refused' ? tooOld : null);
        return { index, outcome, why: fault?.message ?? null, path: fault?.field ?? null };
      });
    },
    observations: (siteKey, fromMs, toMs) =>
      deps.store.watch
        .observations(siteKey, fromMs, MOST_KEPT)
        .then((found) => found.filter(({ observedAtMs }) => observedAtMs < toMs)),
    observedWithin: (siteKey, fromMs, toMs) =>
      deps.store.watch.observedWithin(siteKey, fromMs, toMs, MOST_WITHIN),
  };
}

const OUTCOMES: Readonly<Record<Taken, ObservedItem['outcome']>> = {
  accepted: 'kept',
  duplicate: 'duplicate',
  corrected: 'corrected',
  future: 'refused',
  'too-old': 'refused',
};

/** Keeps what is new and looks at the site; what became of each. */
export async function keepObservations(
  deps: WatchDeps,
  siteKey: string,
  incoming: readonly Observation[],
): Promise<ReadonlyMap<Observation, Taken>> {
  const taken = new Map<Observation, Taken>();
  if (incoming.length === 0) return taken;
  const watched = deps.view(siteKey);
  if (watched === null)
    throw new ServiceError('no_forecast', 'nothing is known of this site yet', { retryable: true });
  const nowMs = deps.nowMs();
  const oldestMs = Math.min(...incoming.map(({ observedAtMs }) => observedAtMs));
  const known = await deps.store.watch.observations(
    siteKey,
    Math.max(oldestMs - 1, nowMs - 24 * HOUR_MS),
    MOST_KEPT,
  );
  let observations: readonly Observation[] = known;
  const fresh: KeptObservation[] = [];
  const revisions = new Map(known.map((o) => [nameOf(o), o.revision]));
  for (const observation of incoming) {
    const result = takeObservation(observations, observation, nowMs, watched.settings);
    taken.set(observation, result.taken);
    observations = result.observations;
    if (result.taken !== 'accepted' && result.taken !== 'corrected') continue;
    const revision = (revisions.get(nameOf(observation)) ?? -1) + 1;
    revisions.set(nameOf(observation), revision);
    fresh.push({ ...observation, revision });
  }
  if (fresh.length > 0) await watchSite(deps, siteKey, { observations: fresh });
  return taken;
}

const nameOf = ({ station, observedAtMs }: Observation): string => `${station} ${observedAtMs}`;
