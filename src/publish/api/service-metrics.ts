// What the service tells of itself → metrics. Ages of many cells are told as quantiles: a series for each would be
// thousands.

import { Counter, Gauge, type Registry } from 'prom-client';
import type { GaugeReadings } from '#publish/gauges.ts';
import { addWatchRows, WATCH_COUNTERS, WATCH_GAUGES } from './watch-metrics.ts';

/** Up to so many cells each has a series of its own. */
export const MOST_CELLS_NAMED = 50;

const QUANTILES = [0.5, 0.9, 0.99, 1] as const;

/** Name → help and labels. docs/metrics.md tells the same; a test compares. */
const GAUGES = {
  pitward_pull_age_seconds: ['time since cells were last asked for, by quantile over cells', 'quantile'],
  pitward_pull_failing_cells: ['cells whose last pull failed'],
  pitward_pull_failing_cells_by_code: ['cells whose last pull failed, by the code of the fault', 'code'],
  pitward_round_whole: ['1 where every site is as fresh as its periods ask'],
  pitward_forecast_age_seconds: ['age of the forecast documents in use, by quantile over cells', 'quantile'],
  pitward_forecast_cell_age_seconds: ['age of the document of each cell, where there are few', 'cell'],
  pitward_forecast_cells: ['cells that sites lie in, with and without a document', 'held'],
  pitward_alerts_age_seconds: ['time since official alerts were read, by quantile over places', 'quantile'],
  pitward_alerts_places: ['places of sites, with alerts read and never read', 'held'],
  pitward_source_left_alone: ['1 where a host is left alone after failures in a row', 'host', 'kind'],
  pitward_sites: ['sites by the state of their forecast', 'state'],
  pitward_sites_near_shift: ['sites whose shift lasts or is near, by the state of their forecast', 'state'],
  pitward_store_up: ['1 where the store did what it was last asked', 'kind'],
  pitward_store_bytes: ['size of the store', 'kind'],
  pitward_mirror_age_seconds: ['time since what is held in memory was known to be the newest'],
  pitward_queue_waiting: ['work that waits in this process'],
  pitward_queue_running: ['work under way in this process'],
  pitward_keys_live: ['keys that may be used'],
  ...WATCH_GAUGES,
} as const;

const COUNTERS = {
  pitward_pulls_total: ['what was asked of the forecast source, by kind and outcome', 'kind', 'outcome'],
  pitward_cell_failures_total: [
    'pulls of each cell that failed, by the code of the fault, where cells are few',
    'cell',
    'code',
  ],
  pitward_plans_total: ['plans made'],
  pitward_events_total: ['plans that differ from the one before'],
  ...WATCH_COUNTERS,
} as const;

type Labels = Readonly<Record<string, string>>;

/** Shows readings until the next ones; what is no longer told vanishes. */
export function createServiceMetrics(registry: Registry): (readings: GaugeReadings) => void {
  const registers = [registry];
  const put = new Map<string, (labels: Labels, value: number) => void>();
  const emptied: (() => void)[] = [];
  for (const [name, [help, ...labelNames]] of Object.entries(GAUGES)) {
    const gauge = new Gauge({ name, help, labelNames, registers });
    put.set(name, (labels, value) => gauge.set(labels, value));
    emptied.push(() => empty(gauge, labelNames.length));
  }
  for (const [name, [help, ...labelNames]] of Object.entries(COUNTERS)) {
    const counter = new Counter({ name, help, labelNames, registers });
    put.set(name, (labels, value) => counter.inc(labels, value));
    emptied.push(() => empty(counter, labelNames.length));
  }
  return (readings) => {
    for (const clear of emptied) clear();
    for (const { name, labels, value } of rowsOf(readings)) put.get(name)?.(labels, value);
  };
}

/** Without labels a metric that was reset would say 0, which nobody measured. */
function empty(metric: Gauge | Counter, labelCount: number): void {
  metric.reset();
  if (labelCount === 0) metric.remove({});
}

interface Row {
  readonly name: keyof typeof GAUGES | keyof typeof COUNTERS;
  readonly labels: Labels;
  readonly value: number;
}

function rowsOf(readings: GaugeReadings): Row[] {
  const { pulls, forecasts, alertAgesS, sites, plansMade, eventsMade, store, mirrorAgeS, queue } = readings;
  const rows: Row[] = [];
  const add = (name: Row['name'], value: number | null, labels: Labels = {}): void => {
    if (value !== null) rows.push({ name, labels, value });
  };
  for (const { kind, outcome, count } of pulls) add('pitward_pulls_total', count, { kind, outcome });
  for (const [quantile, ageS] of quantilesOf(readings.pullAgesS))
    add('pitward_pull_age_seconds', ageS, { quantile });
  add('pitward_pull_failing_cells', readings.cellsFailing);
  for (const { code, count } of readings.cellsFailingBy)
    add('pitward_pull_failing_cells_by_code', count, { code });
  add('pitward_round_whole', readings.roundWhole ? 1 : 0);
  const forecastAgesS = forecasts.map(({ ageS }) => ageS);
  for (const [quantile, ageS] of quantilesOf(forecastAgesS))
    add('pitward_forecast_age_seconds', ageS, { quantile });
  if (forecasts.length <= MOST_CELLS_NAMED) addCellRows(readings, add);
  for (const [held, count] of heldOf(forecastAgesS)) add('pitward_forecast_cells', count, { held });
  for (const [quantile, ageS] of quantilesOf(alertAgesS))
    add('pitward_alerts_age_seconds', ageS, { quantile });
  for (const { host, kind, leftAlone } of readings.source)
    add('pitward_source_left_alone', leftAlone ? 1 : 0, { host, kind });
  for (const [held, count] of heldOf(alertAgesS)) add('pitward_alerts_places', count, { held });
  for (const [state, count] of Object.entries(sites)) add('pitward_sites', count, { state });
  for (const [state, count] of Object.entries(readings.sitesNearShift))
    add('pitward_sites_near_shift', count, { state });
  add('pitward_plans_total', plansMade);
  add('pitward_events_total', eventsMade);
  if (store) {
    add('pitward_store_up', store.healthy ? 1 : 0, { kind: store.kind });
    add('pitward_store_bytes', store.bytes, { kind: store.kind });
  }
  add('pitward_mirror_age_seconds', mirrorAgeS);
  add('pitward_queue_waiting', queue?.waiting ?? null);
  add('pitward_queue_running', queue?.running ?? null);
  add('pitward_keys_live', readings.liveKeys);
  addWatchRows(readings.watch, add);
  return rows;
}

function addCellRows(
  { forecasts, cellFailures }: GaugeReadings,
  add: (name: Row['name'], value: number | null, labels: Labels) => void,
): void {
  for (const { cell, ageS } of forecasts) add('pitward_forecast_cell_age_seconds', ageS, { cell });
  for (const { cell, code, count } of cellFailures) add('pitward_cell_failures_total', count, { cell, code });
}

/** Nearest rank; none where nothing has an age. */
function quantilesOf(agesS: readonly (number | null)[]): [string, number][] {
  const sorted = agesS.filter((age) => age !== null).sort((a, b) => a - b);
  return QUANTILES.flatMap((q): [string, number][] => {
    const age = sorted[Math.ceil(q * sorted.length) - 1];
    return age === undefined ? [] : [[String(q), age]];
  });
}

function heldOf(agesS: readonly (number | null)[]): [string, number][] {
  const without = agesS.filter((age) => age === null).length;
  return [
    ['yes', agesS.length - without],
    ['no', without],
  ];
}
