// The forecast elements: name, unit, plausible range and the law by which intervals become hours. ADD AN ELEMENT: a row here.

import type { Dimension } from '#core/units/quantity.ts';

/**
 * How values over intervals become values of hours:
 * `held` an instantaneous value that stands over its interval; an hour with two different values has none.
 * `most` a value whose larger reading is the graver one; an hour with several takes the largest.
 * `shared` an amount over its interval, shared out evenly in proportion to time.
 */
export type HourLaw = 'held' | 'most' | 'shared';

export interface ElementFacts {
  readonly dimension: Dimension;
  /** Core unit, as answers print it when nobody asked for another. */
  readonly unit: string;
  /** Plausible range in the core unit, ends included; a value outside it is missing. */
  readonly least: number;
  readonly most: number;
  readonly law: HourLaw;
  /** What counts as one whole of room where a bound is zero [core unit]. */
  readonly roomScale: number;
}

const facts = (
  dimension: Dimension,
  unit: string,
  range: readonly [number, number],
  law: HourLaw,
  roomScale: number,
): ElementFacts => ({ dimension, unit, least: range[0], most: range[1], law, roomScale });

/**
 * Ranges are gates against absurd data, not climate: wind to 400 km/h, mixing height to 10 km, temperature -70 to 60 °C.
 * Wind is 10 m, sustained; gust is the largest 3-second wind in 2 minutes at 10 m (NWS Technical Implementation
 * Notice 13-42); mixing height is above ground.
 */
export const ELEMENTS = {
  windSpeed: facts('speed', 'm/s', [0, 112], 'held', 5),
  windGust: facts('speed', 'm/s', [0, 140], 'most', 5),
  windDirection: facts('angle', 'deg', [0, 360], 'held', 45),
  relativeHumidity: facts('percent', '%', [0, 100], 'held', 10),
  temperature: facts('temperature', 'degC', [-70, 60], 'held', 10),
  dewPoint: facts('temperature', 'degC', [-80, 40], 'held', 10),
  skyCover: facts('percent', '%', [0, 100], 'held', 10),
  mixingHeight: facts('length', 'm', [0, 10_000], 'held', 300),
  transportWindSpeed: facts('speed', 'm/s', [0, 112], 'held', 5),
  transportWindDirection: facts('angle', 'deg', [0, 360], 'held', 45),
  probabilityOfPrecipitation: facts('percent', '%', [0, 100], 'most', 10),
  quantitativePrecipitation: facts('precipitation', 'mm', [0, 500], 'shared', 1),
  probabilityOfThunder: facts('percent', '%', [0, 100], 'most', 10),
  lightningActivityLevel: facts('plain', '1', [1, 6], 'most', 1),
  dispersionIndex: facts('plain', '1', [0, 1000], 'held', 10),
  lowVisibilityIndex: facts('plain', '1', [0, 10], 'most', 1),
  redFlagThreat: facts('plain', '1', [0, 100], 'most', 1),
  ventilationRate: facts('ventilation', 'm²/s', [0, 1_120_000], 'held', 1000),
  vapourPressureDeficit: facts('pressure', 'hPa', [0, 200], 'held', 10),
} as const satisfies Record<string, ElementFacts>;

export type Element = keyof typeof ELEMENTS;

export const ELEMENT_NAMES = Object.keys(ELEMENTS) as Element[];

export const isElement = (name: string): name is Element => Object.hasOwn(ELEMENTS, name);
