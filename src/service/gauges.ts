// What /metrics reads of the service at each scrape.

import type { TurnQueue } from '#jobs/queue.ts';
import type { Mirror } from '#memory/mirror.ts';
import { keyState } from '#publish/access/key-life.ts';
import { forecastStateOf } from '#publish/api/forecast-state.ts';
import type { GaugeReadings } from '#publish/gauges.ts';
import type { NwsSource } from '#sources/nws/client.ts';
import type { Store } from '#store/store.ts';
import { deskSite } from './plan-desk.ts';
import type { StoreWatch } from './store-watch.ts';
import type { Counts } from './tally.ts';

export interface GaugeOptions {
  readonly store: Store;
  readonly mirror: Mirror;
  readonly source: Pick<NwsSource, 'lines'>;
  readonly watch: StoreWatch;
  readonly tally: Counts;
  /** Null: this process takes no turns. */
  readonly queue: TurnQueue | null;
  readonly nowMs: () => number;
}

export function readGauges({
  store,
  mirror,
  source,
  watch,
  tally,
  queue,
  nowMs,
}: GaugeOptions): GaugeReadings {
  const now = nowMs();
  const ageS = (ms: number | null): number | null => (ms === null ? null : (now - ms) / 1000);
  const silentMs = watch.ageMs();
  return {
    pulls: tally.pulls(),
    source: source.lines().map(({ host, kind, leftAloneSinceMs }) => {
      return { host, kind, leftAlone: leftAloneSinceMs !== null };
    }),
    forecasts: [...mirror.cells()].map(({ cell, issuedAtMs }) => ({ cell, ageS: ageS(issuedAtMs) })),
    alertAgesS: [...mirror.places()].map(({ alertsFetchedAtMs }) => ageS(alertsFetchedAtMs)),
    sites: sitesByState(mirror, now),
    plansMade: tally.plansMade(),
    eventsMade: tally.eventsMade(),
    store: { kind: store.kind, healthy: store.health().ok, bytes: null },
    mirrorAgeS: silentMs === null ? null : silentMs / 1000,
    queue: queue && { waiting: queue.waiting(), running: queue.running() },
    liveKeys: mirror.keys().filter((key) => keyState(key, now) === 'live').length,
  };
}

function sitesByState(mirror: Mirror, nowMs: number): GaugeReadings['sites'] {
  const counts = { fresh: 0, aging: 0, stale: 0, none: 0 };
  for (const [key, definition] of mirror.book().sites) {
    const site = deskSite(key, definition, mirror.state(key), nowMs);
    counts[forecastStateOf(site, nowMs).state] += 1;
  }
  counts.none += mirror.book().broken.size;
  return counts;
}
