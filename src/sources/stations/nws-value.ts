// One quantity of an observation of the NWS API: its value in core units, and how far the service vouches for it.

import { ELEMENTS, type Element } from '#core/series/elements.ts';
import type { Dimension } from '#core/units/quantity.ts';
import type { ObservationQuality } from '#core/watch/observation.ts';
import type { FaultTally } from '#sources/nws/fault-tally.ts';
import { isObject, type JsonObject } from '#sources/nws/json.ts';
import { conversionOf, convert } from '#sources/nws/units.ts';

export interface ToldValue {
  readonly value: number | null;
  /** Null where there is no value to vouch for. */
  readonly quality: ObservationQuality | null;
}

export interface ValueKind {
  readonly name: string;
  readonly dimension: Dimension;
  readonly least: number;
  readonly most: number;
}

export const valueKind = (name: string, element: Element): ValueKind => ({ name, ...ELEMENTS[element] });

/** Altimeter setting [hPa]. */
export const PRESSURE: ValueKind = {
  name: 'barometricPressure',
  dimension: 'pressure',
  least: 850,
  most: 1100,
};

const NONE: ToldValue = { value: null, quality: null };

/**
 * MADIS quality codes (madis-data.cprk.ncep.noaa.gov/doc/qc_info.txt): C, S and V passed one, two or three levels of
 * checks, G was accepted by hand; Z was not checked; X failed a range check, B was rejected by hand; Q failed later checks,
 * and I, W and T are interpolated, corrected or virtual.
 */
const QUALITY: Readonly<Record<string, ObservationQuality | 'rejected'>> = {
  C: 'passed',
  S: 'passed',
  V: 'passed',
  G: 'passed',
  Z: 'unverified',
  Q: 'doubtful',
  I: 'doubtful',
  W: 'doubtful',
  T: 'doubtful',
  X: 'rejected',
  B: 'rejected',
};

/** A value without a number, in an unknown unit, out of range or rejected is missing; all but the first are told. */
export function readNwsValue(properties: JsonObject, kind: ValueKind, tally: FaultTally): ToldValue {
  const { name, dimension, least, most } = kind;
  const told = properties[name] ?? null;
  if (told === null) return NONE;
  if (!isObject(told)) return odd(tally, 'no-quantity', name, told);
  const { value: number, unitCode, qualityControl } = told;
  if (number === null || number === undefined) return NONE;
  if (typeof number !== 'number') return odd(tally, 'no-number', name, told);
  const conversion = typeof unitCode === 'string' ? conversionOf(unitCode, dimension) : null;
  if (conversion === null) return odd(tally, 'unknown-unit', name, told);
  const quality = qualityOf(qualityControl);
  if (quality === 'rejected') return odd(tally, 'rejected', name, told);
  const value = convert(number, conversion);
  return value >= least && value <= most ? { value, quality } : odd(tally, 'out-of-range', name, told);
}

/** `V`, or `qc:V` as in answers of 2020; what is not known, or not there, vouches for nothing. */
function qualityOf(code: unknown): ObservationQuality | 'rejected' {
  const name = typeof code === 'string' ? code.slice(code.lastIndexOf(':') + 1) : '';
  return Object.hasOwn(QUALITY, name) ? (QUALITY[name] ?? 'unverified') : 'unverified';
}

function odd(tally: FaultTally, kind: string, name: string, told: unknown): ToldValue {
  tally.add(kind, name, told);
  return NONE;
}

const RANK: Readonly<Record<ObservationQuality, number>> = { passed: 0, unverified: 1, doubtful: 2 };

/** The least of what several are vouched for; `unverified` where none is there to vouch for. */
export function leastQuality(qualities: readonly (ObservationQuality | null)[]): ObservationQuality {
  let least: ObservationQuality | null = null;
  for (const quality of qualities) {
    if (quality !== null && (least === null || RANK[quality] > RANK[least])) least = quality;
  }
  return least ?? 'unverified';
}
