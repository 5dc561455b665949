// Layers told in rows of hours, as the tests of layer-to-hours write them.

import type { Element } from '#core/series/elements.ts';
import { MISSING_REASONS } from '#core/series/hourly-series.ts';
import { layerToHours } from '#core/series/layer-to-hours.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { instant } from './time.ts';

export const START = instant('2026-03-02T12:00:00Z');

/** Rows of [from hour, to hour, value], hours counted from 12:00. */
export type Row = readonly [number, number, number | null];

/** Each hour as its value, or why it has none. */
export function hours(element: Element, rows: readonly Row[], count = 6) {
  const layer = {
    fromMs: rows.map(([from]) => START + from * HOUR_MS),
    toMs: rows.map(([, to]) => START + to * HOUR_MS),
    values: rows.map(([, , value]) => value ?? Number.NaN),
  };
  const { column, faults } = layerToHours(element, layer, START, count);
  const told = Array.from(column.values, (v, h) =>
    column.missing[h] === 0 ? v : MISSING_REASONS[column.missing[h] ?? 0],
  );
  return { told, faults, column };
}
