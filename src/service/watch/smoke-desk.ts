// Which burns were open at a moment, and where their smoke went then, from what is kept.

import type { Forecast } from '#core/series/forecast.ts';
import { MINUTE_MS } from '#core/units/time.ts';
import { countedTaps, foldTaps } from '#core/watch/fold-taps.ts';
import type { Observation } from '#core/watch/observation.ts';
import { forecastSmoke, NO_SMOKE, observedSmoke, type Smoke } from '#core/watch/smoke.ts';
import { windNow } from '#core/watch/wind-now.ts';
import { ServiceError } from '#errors.ts';
import type { WatchDeps, WatchedSite } from '#jobs/watch/watched-site.ts';
import type { Mirror } from '#memory/mirror.ts';
import type { SmokeDesk } from '#publish/smoke-desk.ts';
import type { GridSource } from '#sources/grid-source.ts';
import type { DocumentRecords } from '#store/store.ts';

export interface PastForecasts {
  readonly mirror: Pick<Mirror, 'state'>;
  readonly documents: DocumentRecords;
  readonly grid: Pick<GridSource, 'read'>;
}

/** Of each station, within the time looked back on. */
const MOST_OBSERVATIONS = 4000;

export function smokeDesk(deps: WatchDeps, past: PastForecasts): SmokeDesk {
  const { store } = deps;
  const forecastAt = createPastForecasts(deps, past);
  return {
    burnsAt: (atMs, coveredAfterMs) => store.watch.burnsAt(atMs, coveredAfterMs),
    async burnThen(burn, atMs) {
      const kept = await store.watch.burn(burn.site, burn.id);
      const then = countedTaps(kept?.taps ?? []).filter(
        (tap) => Math.min(tap.tappedAtMs, tap.receivedAtMs) <= atMs,
      );
      const lastTap = then.reduce<(typeof then)[number] | null>(
        (last, tap) => (last === null || tap.tappedAtMs >= last.tappedAtMs ? tap : last),
        null,
      );
      return { burn: foldTaps(then, burn.site, burn.briefedFromDeg) ?? burn, lastTap };
    },
    async smokes(siteKey, momentsMs) {
      const watched = deps.view(siteKey);
      if (watched === null || momentsMs.length === 0) return momentsMs.map(() => NO_SMOKE);
      const { lookBackMin, futureMin } = watched.settings;
      const observations = await store.watch.observations(
        siteKey,
        Math.min(...momentsMs) - lookBackMin * MINUTE_MS,
        MOST_OBSERVATIONS,
        Math.max(...momentsMs) + futureMin * MINUTE_MS + 1,
      );
      const smokes: Smoke[] = [];
      for (const atMs of momentsMs) {
        const observed = observedAt(watched, observations, atMs);
        smokes.push(observed ?? forecastSmoke(await forecastAt(watched, atMs), watched.site, atMs));
      }
      return smokes;
    },
  };
}

/** By the stations as they are configured now. */
function observedAt(watched: WatchedSite, observations: readonly Observation[], atMs: number): Smoke | null {
  const { site, limits, settings, stations } = watched;
  const wind = windNow({
    ...{ site, limits, settings, stations, observations, nowMs: atMs },
    ...{ plan: null, briefed: null, litBy: null, rebriefed: null, rebriefedAtMs: null, burn: null },
    ...{ alsoOpen: [], covered: [], unfound: [], noneNear: [], alerts: null, before: [] },
  });
  return observedSmoke(wind, stations, site);
}

/** Decoded ones; the longest kept go first. */
const MOST_FORECASTS = 20;

/** The forecast that was known of a site at a moment; null where none was, or it is not kept any more. */
function createPastForecasts({ store }: WatchDeps, { mirror, documents, grid }: PastForecasts) {
  const read = new Map<string, Forecast | null>();
  return async ({ key, site }: WatchedSite, atMs: number): Promise<Forecast | null> => {
    const held = mirror.state(key).held?.forecast ?? null;
    if (held !== null && held.fetchedAtMs <= atMs) return held;
    const basis = (await store.plans.at(key, atMs))?.basis;
    if (basis === undefined) return null;
    const name = `${basis.document} ${key}`;
    const known = read.get(name);
    if (known !== undefined) return known;
    const found = await documents.read(basis.document);
    const forecast = found?.kind === 'gridpoint' ? decoded(found.bytes, basis, grid, site.place) : null;
    read.set(name, forecast);
    if (read.size > MOST_FORECASTS) read.delete(read.keys().next().value ?? '');
    return forecast;
  };
}

function decoded(
  bytes: Uint8Array,
  basis: { readonly document: string; readonly documentReceivedAtMs: number },
  grid: Pick<GridSource, 'read'>,
  place: Parameters<GridSource['read']>[1],
): Forecast | null {
  try {
    const document = { bytes, hash: basis.document, receivedAtMs: basis.documentReceivedAtMs };
    return grid.read(document, place, null);
  } catch (fault) {
    // What cannot be read any more says nothing; anything else is a fault of the program.
    if (fault instanceof ServiceError) return null;
    throw fault;
  }
}
