// The two layers of the grid whose values are lists: flagged hazards and expected kinds of weather.

import type { GridHazard, GridWeather } from '#core/series/forecast.ts';
import type { FaultTally } from './fault-tally.ts';
import { readSpan } from './grid-layer.ts';
import { isObject, type JsonObject, textOf } from './json.ts';

/**
 * Flagged hazards. An interval whose list is empty, or cannot be read, flags something whose code is lost: it stays,
 * with phenomenon and significance null (7 of 10 recorded intervals came so).
 */
export function readHazards(properties: JsonObject, faults: FaultTally): GridHazard[] {
  const hazards: GridHazard[] = [];
  for (const { fromMs, toMs, value, entry } of listed(properties, 'hazards', faults)) {
    if (!Array.isArray(value)) faults.add('value-unreadable', 'hazards', entry);
    const codes: readonly unknown[] = Array.isArray(value) && value.length > 0 ? value : [null];
    for (const code of codes) {
      const known = isObject(code) ? code : {};
      hazards.push({
        fromMs,
        toMs,
        phenomenon: textOf(known['phenomenon']),
        significance: textOf(known['significance']),
      });
    }
  }
  return hazards;
}

/** Expected kinds of weather, in the source's words; members that name none (a dry hour) are left out. */
export function readWeather(properties: JsonObject, faults: FaultTally): GridWeather[] {
  const kinds: GridWeather[] = [];
  for (const { fromMs, toMs, value, entry } of listed(properties, 'weather', faults)) {
    if (!Array.isArray(value)) {
      if (value !== null) faults.add('value-unreadable', 'weather', entry);
      continue;
    }
    for (const part of value as readonly unknown[]) {
      const known = isObject(part) ? part : null;
      const weather = textOf(known?.['weather']);
      if (weather !== null) kinds.push({ fromMs, toMs, weather, coverage: textOf(known?.['coverage']) });
      else if (known === null || (known['weather'] ?? null) !== null)
        faults.add('value-unreadable', 'weather', part);
    }
  }
  return kinds;
}

interface ListedInterval {
  readonly fromMs: number;
  readonly toMs: number;
  readonly value: unknown;
  readonly entry: JsonObject;
}

function listed(properties: JsonObject, name: string, faults: FaultTally): ListedInterval[] {
  if (!Object.hasOwn(properties, name)) return [];
  const layer = properties[name];
  if (!isObject(layer) || !Array.isArray(layer['values'])) {
    faults.add('layer-unreadable', name, layer);
    return [];
  }
  const found: ListedInterval[] = [];
  for (const entry of layer['values'] as readonly unknown[]) {
    const span = { fromMs: 0, toMs: 0 };
    if (readSpan(entry, name, span, faults)) found.push({ ...span, value: entry['value'], entry });
  }
  return found;
}
