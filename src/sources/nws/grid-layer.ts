// One layer of the grid → intervals in core units. A fault never fills an hour: what cannot be read leaves its hours out.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import type { MissingReason } from '#core/series/hourly-series.ts';
import type { Layer } from '#core/series/layer-to-hours.ts';
import { HOUR_MS } from '#core/units/time.ts';
import type { FaultTally } from './fault-tally.ts';
import { type IntervalOut, readInterval } from './interval.ts';
import { isObject, type JsonObject } from './json.ts';
import type { LayerRow } from './layers.ts';
import { type Conversion, conversionOf, convert } from './units.ts';

/** The list of a layer, still as it came, and how its values convert. */
export interface FilledLayer {
  readonly entries: readonly unknown[];
  readonly conversion: Conversion;
}

export interface PickedLayer {
  readonly element: Element;
  /** The name that counted; the first of its row where none did. */
  readonly name: string;
  /** The list, or why there is none. */
  readonly content: FilledLayer | MissingReason;
}

/** Picks the first layer of a row that has values; otherwise says why none has. */
export function pickLayer(properties: JsonObject, row: LayerRow, faults: FaultTally): PickedLayer {
  const { element, names } = row;
  let picked: PickedLayer = { element, name: names[0] as string, content: 'layer-absent' };
  for (const name of names) {
    const content = layerNamed(properties, name, row, faults);
    if (typeof content !== 'string' && (names.length === 1 || content.entries.some(hasNumber))) {
      return { element, name, content };
    }
    if (picked.content === 'layer-absent') picked = { element, name, content };
  }
  return picked;
}

const hasNumber = (entry: unknown): boolean => isObject(entry) && typeof entry['value'] === 'number';

function layerNamed(
  properties: JsonObject,
  name: string,
  row: LayerRow,
  faults: FaultTally,
): FilledLayer | MissingReason {
  if (!Object.hasOwn(properties, name)) return 'layer-absent';
  const found = properties[name];
  if (!isObject(found) || !Array.isArray(found['values'])) {
    faults.add('layer-unreadable', name, found);
    return 'layer-unreadable';
  }
  const entries: readonly unknown[] = found['values'];
  if (entries.length === 0) return 'layer-empty';
  const unit = found['uom'] ?? row.unitless;
  const conversion = typeof unit === 'string' ? conversionOf(unit, ELEMENTS[row.element].dimension) : null;
  if (conversion === null) {
    faults.add('unit-unknown', name, unit ?? 'no unit');
    return 'unit-unknown';
  }
  return { entries, conversion };
}

/** All intervals of a layer that can be read, in order of time and each once; what is odd about them is counted. */
export function intervalsOf({ entries, conversion }: FilledLayer, name: string, faults: FaultTally): Layer {
  const intervals: Interval[] = [];
  const span: IntervalOut = { fromMs: 0, toMs: 0 };
  let latestFrom = Number.NEGATIVE_INFINITY;
  for (const entry of entries) {
    if (!readSpan(entry, name, span, faults)) continue;
    const { value } = entry;
    if (span.fromMs % HOUR_MS !== 0 || span.toMs % HOUR_MS !== 0)
      faults.add('interval-unaligned', name, entry);
    if (span.fromMs < latestFrom) faults.add('interval-unsorted', name, entry);
    latestFrom = span.fromMs;
    if (typeof value !== 'number' && value !== null) faults.add('value-unreadable', name, entry);
    const core = typeof value === 'number' ? convert(value, conversion) : Number.NaN;
    intervals.push({ ...span, value: core, entry });
  }
  const once = inOrderOnce(intervals, name, faults);
  return {
    fromMs: once.map(({ fromMs }) => fromMs),
    toMs: once.map(({ toMs }) => toMs),
    values: once.map(({ value }) => value),
  };
}

interface Interval {
  readonly fromMs: number;
  readonly toMs: number;
  readonly value: number;
  readonly entry: unknown;
}

/**
 * Drops intervals that repeat another one in start, end and value (amounts would count twice) and counts those that
 * overlap; what an overlap means for its hours is the element's law.
 */
function inOrderOnce(intervals: readonly Interval[], name: string, faults: FaultTally): Interval[] {
  const kept: Interval[] = [];
  const seen = new Set<string>();
  let latestTo = Number.NEGATIVE_INFINITY;
  for (const interval of intervals.toSorted((a, b) => a.fromMs - b.fromMs || a.toMs - b.toMs)) {
    const key = `${interval.fromMs} ${interval.toMs} ${interval.value}`;
    if (seen.has(key)) {
      faults.add('interval-duplicate', name, interval.entry);
      continue;
    }
    seen.add(key);
    if (interval.fromMs < latestTo) faults.add('interval-overlap', name, interval.entry);
    latestTo = Math.max(latestTo, interval.toMs);
    kept.push(interval);
  }
  return kept;
}

/** Reads the interval of an entry; counts a fault and returns false where it has no length or cannot be read. */
export function readSpan(
  entry: unknown,
  name: string,
  span: IntervalOut,
  faults: FaultTally,
): entry is JsonObject {
  if (typeof entry !== 'object' || entry === null) {
    faults.add('entry-unreadable', name, entry);
    return false;
  }
  const text = (entry as JsonObject)['validTime'];
  const reason = readInterval(text, span);
  if (reason !== null) {
    faults.add('interval-unreadable', name, `${typeof text === 'string' ? text : typeof text} (${reason})`);
    return false;
  }
  if (span.toMs > span.fromMs) return true;
  faults.add(span.toMs === span.fromMs ? 'interval-empty' : 'interval-reversed', name, text);
  return false;
}
