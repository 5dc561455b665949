// Forecasts from figures per hour or from sparse tables, in the units that people use.

import { ELEMENT_NAMES, ELEMENTS, type Element } from '#core/series/elements.ts';
import type { Forecast } from '#core/series/forecast.ts';
import { type Column, type HourlySeries, makeSeries, missingCode } from '#core/series/hourly-series.ts';
import { clockPartsAt } from '#core/units/local-time.ts';
import { parseQuantity } from '#core/units/quantity.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { CHICAGO } from './time.ts';

/** Value of an hour in the core unit; null where there is none. */
export type HourValue = (startMs: number, hour: number) => number | null;
export type Sketch = Partial<Record<Element, HourValue | number | null>>;

/** A core value from text such as "7 mph". */
export function core(element: Element, text: string): number {
  const parsed = parseQuantity(text, ELEMENTS[element].dimension);
  if ('fault' in parsed) throw new Error(parsed.fault);
  return parsed.value;
}

/** Steps by the local clock, each standing until the next: `byClock('windSpeed', { '00:00': '7 mph', '14:00': '13 mph' })`. */
export function byClock(
  element: Element,
  table: Readonly<Record<string, string | null>>,
  timeZone = CHICAGO,
): HourValue {
  const rows = Object.entries(table).sort(([a], [b]) => (a < b ? -1 : 1));
  return (startMs) => {
    const { date, hour } = clockPartsAt(startMs, timeZone);
    const clock = `${String(hour).padStart(2, '0')}:00`;
    const now = rows
      .filter(([from]) => (from.length > 5 ? from <= `${date} ${clock}` : from <= clock))
      .at(-1);
    const text = now?.[1] ?? null;
    return text === null ? null : core(element, text);
  };
}

export function columnOf(values: readonly (number | null)[], why: 'gap' | 'null-value' = 'gap'): Column {
  return {
    values: Float64Array.from(values, (v) => v ?? Number.NaN),
    missing: Uint8Array.from(values, (v) => (v === null ? missingCode(why) : 0)),
    derived: null,
  };
}

export function seriesOf(startMs: number, hours: number, sketch: Sketch): HourlySeries {
  const columns: Partial<Record<Element, Column>> = {};
  for (const element of ELEMENT_NAMES) {
    const given = sketch[element];
    if (given === undefined) continue;
    const value = typeof given === 'function' ? given : () => given;
    columns[element] = columnOf(Array.from({ length: hours }, (_, h) => value(startMs + h * HOUR_MS, h)));
  }
  return makeSeries(startMs, hours, columns);
}

export const forecastOf = (
  series: HourlySeries,
  issuedAtMs: number | null,
  more: Partial<Forecast> = {},
): Forecast => ({
  source: 'test',
  documentId: 'test-document',
  cell: 'TST 1,1',
  issuedAtMs,
  fetchedAtMs: issuedAtMs ?? series.startMs,
  series,
  hazards: [],
  weather: [],
  faults: [],
  ...more,
});

/** Weather in which every plain limit is met with room. */
export const FAIR: Sketch = {
  windSpeed: core('windSpeed', '7 mph'),
  windGust: core('windGust', '11 mph'),
  windDirection: 180,
  relativeHumidity: 45,
  mixingHeight: core('mixingHeight', '4000 ft'),
  transportWindSpeed: core('transportWindSpeed', '15 mph'),
  probabilityOfThunder: 0,
};
