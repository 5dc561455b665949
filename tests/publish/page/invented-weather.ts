// Invented hours of the local clock. No test in here.

import type { Element } from '#core/series/elements.ts';

/** Hour of the local clock → value in the core unit. */
type Hourly = (clockHour: number) => number;
export type Weather = Partial<Record<Element, Hourly>>;

const MPH = 0.44704;
const FOOT = 0.3048;
const curve =
  (values: readonly number[], factor: number): Hourly =>
  (h) =>
    (values[h] ?? 0) * factor;

/** Held until 9:00 by mixing height; gusts end it from 15:00. */
export const GOOD: Weather = {
  windSpeed: curve([4, 4, 4, 4, 4, 4, 4, 4, 5, 6, 7, 8, 9, 10, 10, 13, 14, 11, 8, 6, 5, 4, 4, 4], MPH),
  windGust: curve([6, 6, 6, 6, 6, 6, 6, 7, 8, 10, 12, 14, 15, 16, 18, 26, 27, 18, 12, 9, 8, 6, 6, 6], MPH),
  windDirection: () => 220,
  relativeHumidity: curve(
    [90, 91, 92, 93, 94, 94, 92, 88, 79, 70, 61, 52, 45, 41, 38, 36, 38, 47, 60, 70, 78, 82, 85, 88],
    1,
  ),
  temperature: () => 15,
  mixingHeight: curve(
    [
      200, 200, 200, 200, 200, 250, 300, 350, 800, 1800, 2600, 3400, 4100, 4600, 4900, 4800, 3900, 1500, 500,
      300, 200, 200, 200, 200,
    ],
    FOOT,
  ),
  probabilityOfThunder: () => 3,
};

/** Gusts of one hour, 11:00 to 12:00, hold a day that is good enough before and long enough after. */
export const GUSTY_NOON: Weather = {
  ...GOOD,
  windGust: (h) => (h === 11 ? 21 : 15) * MPH,
  windSpeed: () => 9 * MPH,
};

/** No wind to speak of, and no mixing all day: nobody may light. */
export const STILL: Weather = {
  ...GOOD,
  windSpeed: () => 4.6 * MPH,
  windGust: () => 6 * MPH,
  mixingHeight: () => 1400 * FOOT,
};

export const GALE: Weather = { ...GOOD, windGust: () => 31 * MPH, windSpeed: () => 18 * MPH };
