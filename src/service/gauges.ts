// What /metrics reads of the service at each scrape.

import { placeKeyAt } from '#core/site/place-key.ts';
import type { Periods } from '#jobs/due.ts';
import type { TurnQueue } from '#jobs/queue.ts';
import { whyNotWhole } from '#jobs/whole-round.ts';
import type { Mirror } from '#memory/mirror.ts';
import { keyState } from '#publish/access/key-life.ts';
import type { GaugeReadings, WatchGauges } from '#publish/gauges.ts';
import type { NwsSource } from '#sources/nws/client.ts';
import type { CellState } from '#store/cell-state.ts';
import type { PlaceState } from '#store/place-state.ts';
import type { Store } from '#store/store.ts';
import type { NearShift } from './near-shift.ts';
import { siteFreshness, tooOld } from './site-freshness.ts';
import type { StoreWatch } from './store-watch.ts';
import type { Counts } from './tally.ts';

export interface GaugeOptions {
  readonly store: Pick<Store, 'kind' | 'health'>;
  readonly mirror: Mirror;
  readonly source: Pick<NwsSource, 'lines'>;
  readonly watch: StoreWatch;
  readonly tally: Counts;
  readonly periods: Periods;
  readonly isNearShift: NearShift;
  /** Null where it is not known. */
  storeBytes(): number | null;
  /** Null: this process takes no turns. */
  readonly queue: TurnQueue | null;
  watching(): Promise<WatchGauges>;
  readonly nowMs: () => number;
}

export async function readGauges(options: GaugeOptions): Promise<GaugeReadings> {
  const { store, mirror, source, watch, tally, periods, queue, nowMs } = options;
  const now = nowMs();
  const ageS = (ms: number | null | undefined): number | null =>
    ms === null || ms === undefined ? null : (now - ms) / 1000;
  const silentMs = watch.ageMs();
  const { cells, places } = inUse(mirror);
  return {
    pulls: tally.pulls(),
    cellFailures: tally.cellFailures().filter(({ cell }) => cells.has(cell)),
    source: source.lines().map(({ host, kind, leftAloneSinceMs }) => {
      return { host, kind, leftAlone: leftAloneSinceMs !== null };
    }),
    pullAgesS: [...cells.values()].map((state) => ageS(state?.triedAtMs)),
    ...failingNow([...cells.values()]),
    roundWhole: whyNotWhole({ mirror, periods, isTooOld: tooOld(mirror) }, now) === null,
    forecasts: [...cells].map(([cell, state]) => ({ cell, ageS: ageS(state?.issuedAtMs) })),
    alertAgesS: places.map((state) => ageS(state?.alertsFetchedAtMs)),
    ...sitesByState(options, now),
    plansMade: tally.plansMade(),
    eventsMade: tally.eventsMade(),
    store: { kind: store.kind, healthy: store.health().ok, bytes: options.storeBytes() },
    mirrorAgeS: silentMs === null ? null : silentMs / 1000,
    queue: queue && { waiting: queue.waiting(), running: queue.running() },
    liveKeys: mirror.keys().filter((key) => keyState(key, now) === 'live').length,
    watch: await options.watching(),
  };
}

function failingNow(
  cells: readonly (CellState | null)[],
): Pick<GaugeReadings, 'cellsFailing' | 'cellsFailingBy'> {
  const codes = cells.flatMap((state) => state?.fault?.code ?? []);
  const byCode = Map.groupBy(codes, (code) => code);
  return {
    cellsFailing: codes.length,
    cellsFailingBy: [...byCode].map(([code, own]) => ({ code, count: own.length })),
  };
}

/** Cells and places that sites lie in: those of sites that were taken out or have moved are remembered, and age. */
function inUse(mirror: Mirror): { cells: Map<string, CellState | null>; places: (PlaceState | null)[] } {
  const places = new Map<string, PlaceState | null>();
  for (const { fields } of mirror.book().sites.values()) {
    const key = placeKeyAt(fields.at);
    if (!places.has(key)) places.set(key, mirror.place(key));
  }
  const cells = new Map<string, CellState | null>();
  for (const state of places.values()) {
    const cell = state?.cell ?? null;
    if (cell !== null && !cells.has(cell)) cells.set(cell, mirror.cell(cell));
  }
  return { cells, places: [...places.values()] };
}

/** Sites that cannot be judged, or whose zone is not known yet, count as near: nobody knows when they begin. */
function sitesByState(
  { mirror, isNearShift }: GaugeOptions,
  nowMs: number,
): Pick<GaugeReadings, 'sites' | 'sitesNearShift'> {
  const { sites: defined, broken } = mirror.book();
  const sites = { fresh: 0, aging: 0, stale: 0, none: broken.size };
  const near = { ...sites };
  for (const [key, definition] of defined) {
    const { state, zone } = siteFreshness(mirror, key, definition, nowMs);
    sites[state] += 1;
    if (zone === null || isNearShift(definition.fields.shift, zone, nowMs)) near[state] += 1;
  }
  return { sites, sitesNearShift: near };
}
