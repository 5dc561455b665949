// Small gridpoint documents of an invented office (XXX), written for these tests.

import type { Element } from '#core/series/elements.ts';
import { missingReasonAt, valueAt } from '#core/series/hourly-series.ts';
import { type GridpointReading, readGridpoint } from '#sources/nws/gridpoint.ts';

/** 2026-03-02T18:00Z. */
export const START_MS = Date.UTC(2026, 2, 2, 18);
export const FETCHED_MS = Date.UTC(2026, 2, 2, 18, 20);

/** An interval that begins on 2 March 2026 at an hour, `18/PT1H`, or is written out in full. */
export const at = (when: string, value: unknown): unknown => ({
  validTime: /^\d\d\//.test(when) ? `2026-03-02T${when.slice(0, 2)}:00:00+00:00${when.slice(2)}` : when,
  value,
});

export const kmh = (...values: unknown[]) => ({ uom: 'wmoUnit:km_h-1', values });
export const metres = (...values: unknown[]) => ({ uom: 'wmoUnit:m', values });
export const percent = (...values: unknown[]) => ({ uom: 'wmoUnit:percent', values });
export const mm = (...values: unknown[]) => ({ uom: 'wmoUnit:mm', values });
export const degrees = (...values: unknown[]) => ({ uom: 'wmoUnit:degree_(angle)', values });
export const celsius = (...values: unknown[]) => ({ uom: 'wmoUnit:degC', values });

/** The cell round 40.61 N, 74.03 W; 3 km across. */
export const OUTLINE = {
  type: 'Polygon',
  coordinates: [
    [
      [-74.05, 40.6],
      [-74.05, 40.62],
      [-74.02, 40.62],
      [-74.02, 40.6],
      [-74.05, 40.6],
    ],
  ],
};

/** A gridpoint document of six hours from 18Z, with the layers given. */
export const grid = (layers: object, geometry: unknown = OUTLINE): object => ({
  type: 'Feature',
  geometry,
  properties: {
    '@id': 'https://api.weather.gov/gridpoints/XXX/12,34',
    updateTime: '2026-03-02T17:00:00+00:00',
    validTimes: '2026-03-02T18:00:00+00:00/PT6H',
    elevation: { unitCode: 'wmoUnit:m', value: 120 },
    gridId: 'XXX',
    gridX: 12,
    gridY: '34',
    ...layers,
  },
});

export const bytesOf = (document: unknown): Uint8Array =>
  new TextEncoder().encode(typeof document === 'string' ? document : JSON.stringify(document));

export const readGrid = (layers: object): GridpointReading =>
  readGridpoint(bytesOf(grid(layers)), { fetchedAtMs: FETCHED_MS });

/** The hours of an element: its values, or the reason in place of each that is missing. */
export function hoursOf(reading: GridpointReading, element: Element): (number | string)[] {
  const { series } = reading.forecast;
  return Array.from(
    { length: series.hours },
    (_, h) => valueAt(series, element, h) ?? missingReasonAt(series, element, h),
  );
}

/** Faults as `kind where count`. */
export const faultsOf = (reading: GridpointReading): string[] =>
  reading.forecast.faults.map(({ kind, where, count }) => `${kind} ${where} ${count}`);
