// What can be worked out from other elements where a layer has no value; always marked as derived.

import { ELEMENT_NAMES, ELEMENTS, type Element } from './elements.ts';
import { type Column, type HourlySeries, MISSING_REASONS, makeSeries, missingCode } from './hourly-series.ts';
import { relativeHumidityFromDewPoint, vapourPressureDeficitHpa } from './humidity.ts';

export interface DeriveOptions {
  /** Gust = wind × factor where the gust is missing; null forbids it. */
  readonly gustFactor: number | null;
  /** Of ventilation rate and vapour pressure deficit only these; both where it is not given. */
  readonly wanted?: ReadonlySet<Element>;
}

/**
 * Fills hours without a value: relative humidity from temperature and dew point, ventilation rate = mixing height ×
 * transport wind, vapour pressure deficit from temperature and humidity, and gust from wind where a factor is allowed.
 * A gust below the sustained wind of the same hour is no gust: the hour takes the wind, marked as derived. Without the
 * wind a gust cannot be judged so, and is missing. Values out of range, or no numbers, are missing whatever the source
 * says of them.
 */
export function derive(series: HourlySeries, options: DeriveOptions): HourlySeries {
  const columns = soundColumns(series);
  const humidity = fill(columns.relativeHumidity, (h) =>
    relativeHumidityFromDewPoint(at(columns.temperature, h), at(columns.dewPoint, h)),
  );
  const wants = (element: Element): boolean => options.wanted?.has(element) ?? true;
  const derived: Partial<Record<Element, Column>> = {
    ...columns,
    relativeHumidity: humidity,
    windGust: gustColumn(columns.windGust, columns.windSpeed, options.gustFactor),
  };
  if (wants('ventilationRate')) {
    derived.ventilationRate = fill(
      columns.ventilationRate,
      (h) => at(columns.mixingHeight, h) * at(columns.transportWindSpeed, h),
    );
  }
  if (wants('vapourPressureDeficit')) {
    derived.vapourPressureDeficit = fill(columns.vapourPressureDeficit, (h) =>
      vapourPressureDeficitHpa(at(columns.temperature, h), at(humidity, h)),
    );
  }
  return makeSeries(series.startMs, series.hours, derived);
}

/**
 * 1 for reasons by which the source did say something here that cannot be used: a value of our own must not take its
 * place.
 */
const REFUSED = Uint8Array.from(MISSING_REASONS, (reason) =>
  ['out-of-range', 'contradictory', 'unit-unknown', 'layer-unreadable'].includes(reason) ? 1 : 0,
);

interface Writable {
  readonly values: Float64Array;
  readonly missing: Uint8Array;
  readonly derived: Uint8Array;
}

/** A copy to write into, in one stretch of memory. */
function copyOf({ values, missing, derived }: Column): Writable {
  const hours = values.length;
  const memory = new ArrayBuffer(10 * hours);
  const copy = {
    values: new Float64Array(memory, 0, hours),
    missing: new Uint8Array(memory, 8 * hours, hours),
    derived: new Uint8Array(memory, 9 * hours, hours),
  };
  copy.values.set(values);
  copy.missing.set(missing);
  if (derived) copy.derived.set(derived);
  return copy;
}

const at = (column: Column, hour: number): number => column.values[hour] as number;

function fill(column: Column, work: (hour: number) => number): Column {
  let filled: Writable | null = null;
  for (let h = 0; h < column.values.length; h += 1) {
    if (!Number.isNaN(at(column, h)) || REFUSED[column.missing[h] as number] === 1) continue;
    const value = work(h);
    if (Number.isNaN(value)) continue;
    filled ??= copyOf(column);
    filled.values[h] = value;
    filled.missing[h] = 0;
    filled.derived[h] = 1;
  }
  return filled ?? column;
}

function gustColumn(gust: Column, wind: Column, factor: number | null): Column {
  const allowed = factor === null ? gust : fill(gust, (h) => at(wind, h) * factor);
  let raised: Writable | null = null;
  for (let h = 0; h < allowed.values.length; h += 1) {
    // False too where one of the two is missing.
    if (at(allowed, h) >= at(wind, h) || Number.isNaN(at(allowed, h))) continue;
    raised ??= copyOf(allowed);
    raised.values[h] = at(wind, h);
    raised.missing[h] = wind.missing[h] as number;
    raised.derived[h] = Number.isNaN(at(wind, h)) ? 0 : 1;
  }
  return raised ?? allowed;
}

const OUT_OF_RANGE = missingCode('out-of-range');

/** The columns with nothing but values in range; hours that claim a value and have none say so. */
function soundColumns({ columns }: HourlySeries): Record<Element, Column> {
  const sound = { ...columns };
  for (const element of ELEMENT_NAMES) {
    const { least, most } = ELEMENTS[element];
    if (!isSound(columns[element], least, most)) sound[element] = mended(columns[element], least, most);
  }
  return sound;
}

function isSound({ values, missing }: Column, least: number, most: number): boolean {
  for (let h = 0; h < values.length; h += 1) {
    const value = values[h] as number;
    // A value in range where one is claimed, none where it is said to be missing.
    const isAsSaid = missing[h] === 0 ? value >= least && value <= most : Number.isNaN(value);
    if (!isAsSaid) return false;
  }
  return true;
}

function mended({ values, missing, derived }: Column, least: number, most: number): Column {
  const better = { values: values.slice(), missing: missing.slice(), derived };
  for (let h = 0; h < values.length; h += 1) {
    const value = values[h] as number;
    if (missing[h] === 0 && value >= least && value <= most) continue;
    better.values[h] = Number.NaN;
    if (missing[h] === 0) better.missing[h] = OUT_OF_RANGE;
  }
  return better;
}
