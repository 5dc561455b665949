// All layers of a grid → one hourly series over the document's span.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import {
  type Column,
  type HourlySeries,
  makeColumns,
  makeSeries,
  missingCode,
} from '#core/series/hourly-series.ts';
import { layerToHours } from '#core/series/layer-to-hours.ts';
import { ceilToHour, DAY_MS, floorToHour, HOUR_MS, type Span } from '#core/units/time.ts';
import { type FaultTally, makeFaultTally } from './fault-tally.ts';
import { type FilledLayer, intervalsOf, type PickedLayer, pickLayer } from './grid-layer.ts';
import { readInterval } from './interval.ts';
import type { JsonObject } from './json.ts';
import { LAYERS } from './layers.ts';
import { fillRegular } from './regular-hours.ts';

/** A document that spans more than this is cut: the service gives about eight days. */
const LONGEST_MS = 16 * DAY_MS;

/**
 * Reads the layers that we use, hour by hour over the document's own span or, where it states none, that of its layers.
 * Begins at the floor of the hour. `fetchedAtMs` is where an empty series begins.
 */
export function readSeries(properties: JsonObject, fetchedAtMs: number, faults: FaultTally): HourlySeries {
  const layers = LAYERS.map((row) => pickLayer(properties, row, faults));
  const span = spanOf(properties, layers, fetchedAtMs, faults);
  const hours = (span.toMs - span.fromMs) / HOUR_MS;
  const blank = makeColumns(layers.length, hours);
  const columns: Partial<Record<Element, Column>> = {};
  for (const [i, layer] of layers.entries()) {
    columns[layer.element] = columnOf(layer, span.fromMs, blank[i] as Column, faults);
  }
  dropImpossibleDewPoints(columns, faults);
  return makeSeries(span.fromMs, hours, columns);
}

function spanOf(
  properties: JsonObject,
  layers: readonly PickedLayer[],
  fetchedAtMs: number,
  faults: FaultTally,
): Span {
  const stated = { fromMs: 0, toMs: 0 };
  const written = properties['validTimes'] ?? null;
  let span: Span = stated;
  if (readInterval(written, stated) !== null || stated.toMs <= stated.fromMs) {
    faults.add('valid-times-unreadable', 'validTimes', written);
    const emptyMs = floorToHour(fetchedAtMs);
    span = layersSpan(layers) ?? { fromMs: emptyMs, toMs: emptyMs };
  }
  const fromMs = floorToHour(span.fromMs);
  const toMs = ceilToHour(span.toMs);
  if (toMs - fromMs <= LONGEST_MS) return { fromMs, toMs };
  faults.add('span-cut', 'validTimes', written);
  return { fromMs, toMs: fromMs + LONGEST_MS };
}

function layersSpan(layers: readonly PickedLayer[]): Span | null {
  const uncounted = makeFaultTally();
  let fromMs = Number.POSITIVE_INFINITY;
  let toMs = Number.NEGATIVE_INFINITY;
  for (const { content, name } of layers) {
    if (typeof content === 'string') continue;
    const intervals = intervalsOf(content, name, uncounted);
    for (const ms of intervals.fromMs) fromMs = Math.min(fromMs, ms);
    for (const ms of intervals.toMs) toMs = Math.max(toMs, ms);
  }
  return fromMs < toMs ? { fromMs, toMs } : null;
}

function columnOf(layer: PickedLayer, startMs: number, blank: Column, faults: FaultTally): Column {
  const { element, content, name } = layer;
  if (typeof content === 'string') {
    blank.values.fill(Number.NaN);
    blank.missing.fill(missingCode(content));
    return blank;
  }
  const isRegular = fillRegular(element, content.entries, content.conversion, startMs, blank);
  return isRegular ? blank : irregularColumn(element, content, name, startMs, blank.values.length, faults);
}

function irregularColumn(
  element: Element,
  content: FilledLayer,
  name: string,
  startMs: number,
  hours: number,
  faults: FaultTally,
): Column {
  const intervals = intervalsOf(content, name, faults);
  const { column, faults: found } = layerToHours(element, intervals, startMs, hours);
  const { least, most, unit } = ELEMENTS[element];
  if (found.outOfRange > 0) {
    const example = intervals.values.find((value) => value < least || value > most);
    faults.add('out-of-range', name, `${example} ${unit}`, found.outOfRange);
  }
  if (found.contradictory > 0)
    faults.add('contradictory', name, `${found.contradictory} h`, found.contradictory);
  return column;
}

/** A dew point more than 1 °C above the temperature is impossible, so the hour has no dew point. */
function dropImpossibleDewPoints(columns: Partial<Record<Element, Column>>, faults: FaultTally): void {
  const { temperature, dewPoint } = columns;
  if (!temperature || !dewPoint) return;
  for (let h = 0; h < dewPoint.values.length; h += 1) {
    const dewPointC = dewPoint.values[h] as number;
    const temperatureC = temperature.values[h] as number;
    if (!(dewPointC > temperatureC + 1)) continue;
    faults.add('dew-point-above-temperature', 'dewpoint', `${dewPointC} over ${temperatureC} degC`);
    dewPoint.values[h] = Number.NaN;
    dewPoint.missing[h] = missingCode('contradictory');
  }
}
