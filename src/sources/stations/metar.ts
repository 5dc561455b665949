// METAR and SPECI text → what the station observed. Wind, thunder and times are read here; temperatures, pressure and
// the typed remarks by the library.

import { type IMetar, parseMetar, RemarkType } from 'metar-taf-parser';
import { ELEMENTS } from '#core/series/elements.ts';
import type { DataFault } from '#core/series/forecast.ts';
import { relativeHumidityFromDewPoint } from '#core/series/humidity.ts';
import type { Observation, ObservedWind } from '#core/watch/observation.ts';
import { messageOf } from '#errors.ts';
import { makeFaultTally } from '#sources/nws/fault-tally.ts';
import { gustAndPeak, type PeakWind } from './gust-and-peak.ts';
import { type MetarHead, readMetarHead } from './metar-head.ts';
import { thunderTold } from './metar-thunder.ts';
import { metarInstantMs, remarkInstantMs } from './metar-time.ts';
import { readMetarWind } from './metar-wind.ts';
import { northAs360, observedWind } from './observed-wind.ts';

export interface MetarReading {
  readonly stationId: string;
  readonly observedAtMs: number;
  readonly corrected: boolean;
  readonly wind: ObservedWind;
  /** Of the wind group alone: within the ten minutes before. */
  readonly gustMps: number | null;
  /** Strongest wind since the hourly report before, where it was above 25 kt. */
  readonly peakWind: PeakWind | null;
  readonly windShiftAtMs: number | null;
  readonly temperatureC: number | null;
  readonly dewPointC: number | null;
  readonly relativeHumidityPct: number | null;
  /** Altimeter setting [Pa]. */
  readonly pressurePa: number | null;
  readonly thunder: boolean | null;
  readonly raw: string;
}

export interface MetarOptions {
  /** The report's month is the one that brings it nearest to this [epoch ms]. */
  readonly aroundMs: number;
  readonly calmBelowMps: number;
}

/** Reads a report. A part that cannot be read is missing and told; null where nothing can be. Never throws. */
export function readMetar(
  text: string,
  { aroundMs, calmBelowMps }: MetarOptions,
): { readonly reading: MetarReading | null; readonly faults: DataFault[] } {
  const tally = makeFaultTally();
  const head = readMetarHead(text);
  const observedAtMs = head && metarInstantMs(head, aroundMs);
  if (head === null || observedAtMs === null) {
    tally.add('no-report', 'rawMessage', text);
    return { reading: null, faults: tally.rows() };
  }
  const { wind, fault } = readMetarWind(head.body);
  if (fault !== null) tally.add('wind-group', 'rawMessage', fault);
  const remarks = remarksOf(text, head, observedAtMs, (where, example) =>
    tally.add('remark', where, example),
  );
  const relativeHumidityPct = humidityOf(remarks.temperatureC, remarks.dewPointC);
  if (Number.isNaN(relativeHumidityPct)) tally.add('dew-point-above-temperature', 'rawMessage', text);
  const reading: MetarReading = {
    stationId: head.stationId,
    observedAtMs,
    corrected: head.corrected,
    wind: observedWind(wind, calmBelowMps),
    gustMps: wind.gustMps,
    ...remarks,
    relativeHumidityPct: Number.isNaN(relativeHumidityPct) ? null : relativeHumidityPct,
    thunder: thunderTold(head),
    raw: text,
  };
  return { reading, faults: tally.rows() };
}

/** A report as an observation: wind at 10 m, a mean of two minutes (FMH-1 chapter 5). Its text alone is unverified. */
export function metarObservation(
  reading: MetarReading,
  { station, receivedAtMs }: { readonly station: string; readonly receivedAtMs: number },
): Observation {
  const { observedAtMs, wind, windShiftAtMs, thunder, corrected, raw } = reading;
  const { relativeHumidityPct, temperatureC, dewPointC, pressurePa } = reading;
  return {
    station,
    observedAtMs,
    receivedAtMs,
    wind,
    windHeightM: METAR_HEIGHT_M,
    windAveragingS: METAR_AVERAGING_S,
    ...gustAndPeak(reading),
    relativeHumidityPct,
    temperatureC,
    dewPointC,
    pressurePa,
    thunder,
    windShiftAtMs,
    quality: 'unverified',
    corrects: corrected,
    raw,
  };
}

export const METAR_HEIGHT_M = 10;
export const METAR_AVERAGING_S = 120;

type Remarks = Pick<MetarReading, 'peakWind' | 'windShiftAtMs' | 'temperatureC' | 'dewPointC' | 'pressurePa'>;

const NO_REMARKS: Remarks = {
  peakWind: null,
  windShiftAtMs: null,
  temperatureC: null,
  dewPointC: null,
  pressurePa: null,
};

const KNOT_MPS = 1852 / 3600; // international knot, exact
/** Conventional inch of mercury at 0 °C (NIST SP 811, appendix B.8). */
const INHG_PA = 3386.389;

function remarksOf(
  text: string,
  head: MetarHead,
  observedAtMs: number,
  odd: (where: string, example: string) => void,
): Remarks {
  let parsed: IMetar;
  try {
    parsed = parseMetar([head.stationId, timeText(head), ...head.body, ...remarkText(head)].join(' '));
  } catch (fault) {
    odd('library', `${messageOf(fault)}: ${text}`);
    return NO_REMARKS;
  }
  const found = { ...NO_REMARKS, ...temperaturesOf(parsed, odd), pressurePa: pressureOf(parsed.altimeter) };
  for (const remark of parsed.remarks) {
    if (remark.type === RemarkType.WindPeak) {
      const atMs = remarkInstantMs(observedAtMs, remark.startHour ?? null, remark.startMinute);
      const speedMps = remark.speed * KNOT_MPS;
      if (atMs === null || remark.degrees > 360 || speedMps > ELEMENTS.windGust.most) odd('peak', remark.raw);
      else found.peakWind = { atMs, speedMps, fromDeg: northAs360(remark.degrees) };
    }
    if (remark.type === RemarkType.WindShift || remark.type === RemarkType.WindShiftFropa) {
      found.windShiftAtMs = remarkInstantMs(observedAtMs, remark.startHour ?? null, remark.startMinute);
      if (found.windShiftAtMs === null) odd('shift', remark.raw);
    }
  }
  return found;
}

const timeText = ({ day, hour, minute }: MetarHead): string =>
  `${[day, hour, minute].map((part) => String(part).padStart(2, '0')).join('')}Z`;

const remarkText = ({ remarks }: MetarHead): string[] => (remarks.length === 0 ? [] : ['RMK', ...remarks]);

/** The T group tells tenths of a degree; where it strays from the whole degrees, these are believed. */
function temperaturesOf(
  parsed: IMetar,
  odd: (where: string, example: string) => void,
): Pick<Remarks, 'temperatureC' | 'dewPointC'> {
  const tenths = parsed.remarks.find((remark) => remark.type === RemarkType.HourlyTemperatureDewPoint);
  const pick = (fine: number | undefined, whole: number | undefined, element: 'temperature' | 'dewPoint') => {
    const strays = fine !== undefined && whole !== undefined && Math.abs(fine - whole) > 1;
    if (strays) odd(element, `${fine} and ${whole}`);
    const value = (strays ? whole : (fine ?? whole)) ?? null;
    if (value === null || (value >= ELEMENTS[element].least && value <= ELEMENTS[element].most)) return value;
    odd(element, String(value));
    return null;
  };
  return {
    temperatureC: pick(tenths?.temperature, parsed.temperature, 'temperature'),
    dewPointC: pick(tenths?.dewPoint, parsed.dewPoint, 'dewPoint'),
  };
}

function pressureOf(altimeter: IMetar['altimeter']): number | null {
  if (altimeter === undefined) return null;
  const pa = altimeter.value * (altimeter.unit === 'inHg' ? INHG_PA : 100);
  return pa >= 85_000 && pa <= 110_000 ? Math.round(pa) : null;
}

/** NaN where the dew point lies above the temperature. */
const humidityOf = (temperatureC: number | null, dewPointC: number | null): number | null =>
  temperatureC === null || dewPointC === null ? null : relativeHumidityFromDewPoint(temperatureC, dewPointC);
