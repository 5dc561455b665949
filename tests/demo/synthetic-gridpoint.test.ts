import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockTimeMs, parseInstantMs } from '#core/units/local-time.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { DEMO_CELLS, type DemoCell } from '#demo/cells.ts';
import { gridpointDocument } from '#demo/documents.ts';
import { durationText, runLength, sixHourSums } from '#demo/run-length.ts';
import type { GridLayer } from '#demo/synthetic-gridpoint.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import { readInterval } from '#sources/nws/interval.ts';

const BASE = 'http://127.0.0.1:1';
const moment = fc.integer({ min: Date.UTC(2025, 0, 1), max: Date.UTC(2035, 0, 1) });
const anyCell = fc.constantFrom(...DEMO_CELLS);

function propertiesOf(cell: DemoCell, nowMs: number): Readonly<Record<string, unknown>> {
  return gridpointDocument(cell, nowMs, BASE).properties;
}

function layersOf(properties: Readonly<Record<string, unknown>>): [string, GridLayer][] {
  return Object.entries(properties).filter((entry): entry is [string, GridLayer] => {
    const value = entry[1];
    return typeof value === 'object' && value !== null && 'values' in value;
  });
}

function layerOf(properties: Readonly<Record<string, unknown>>, name: string): GridLayer {
  const found = layersOf(properties).find(([n]) => n === name);
  if (!found) throw new Error(`no layer ${name}`);
  return found[1];
}

function spanOf(text: unknown): { fromMs: number; toMs: number } {
  const span = { fromMs: 0, toMs: 0 };
  expect(readInterval(text, span)).toBeNull();
  return span;
}

const numbersOf = (layer: GridLayer): number[] => layer.values.map((v) => v.value as number);

/** Within float noise of a whole number. */
const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-3;

const FILLED = [
  'windSpeed',
  'windGust',
  'windDirection',
  'relativeHumidity',
  'temperature',
  'dewpoint',
  'skyCover',
  'mixingHeight',
  'transportWindSpeed',
  'transportWindDirection',
  'probabilityOfPrecipitation',
  'quantitativePrecipitation',
  'probabilityOfThunder',
  'lightningActivityLevel',
  'dispersionIndex',
  'lowVisibilityOccurrenceRiskIndex',
  'weather',
];

describe('a gridpoint document of the demonstration', () => {
  it('has every layer tiled without gap or overlap from the beginning of its validTimes', () => {
    fc.assert(
      fc.property(moment, anyCell, (nowMs, cell) => {
        const properties = propertiesOf(cell, nowMs);
        const whole = spanOf(properties['validTimes']);
        for (const name of FILLED) {
          const { values } = layerOf(properties, name);
          let atMs = whole.fromMs;
          for (const { validTime } of values) {
            const span = spanOf(validTime);
            expect(span.fromMs).toBe(atMs);
            expect(span.toMs).toBeGreaterThan(span.fromMs);
            atMs = span.toMs;
          }
          expect(atMs).toBeLessThanOrEqual(whole.toMs);
          expect(values.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('joins equal hours, and never the amounts of rain', () => {
    const properties = propertiesOf(DEMO_CELLS[0] as DemoCell, Date.UTC(2026, 10, 24, 20, 5));
    for (const name of FILLED.filter((n) => n !== 'quantitativePrecipitation')) {
      const texts = layerOf(properties, name).values.map((v) => JSON.stringify(v.value));
      expect(texts.every((text, i) => text !== texts[i + 1])).toBe(true);
    }
    const hours = layerOf(properties, 'quantitativePrecipitation').values.map((v) => {
      const span = spanOf(v.validTime);
      return (span.toMs - span.fromMs) / HOUR_MS;
    });
    expect(Math.max(...hours)).toBe(6);
    expect(hours.slice(1).every((h) => h === 6)).toBe(true);
    expect(layerOf(properties, 'windSpeed').values.some((v) => /PT([3-9]|1\d)H$/.test(v.validTime))).toBe(
      true,
    );
  });

  it('writes whole knots, whole feet, whole degrees Fahrenheit and directions in tens', () => {
    for (const cell of DEMO_CELLS) {
      const properties = propertiesOf(cell, Date.UTC(2026, 6, 10, 16, 30));
      for (const name of ['windSpeed', 'windGust', 'transportWindSpeed']) {
        expect(numbersOf(layerOf(properties, name)).every((v) => isWhole(v / 1.852))).toBe(true);
        expect(layerOf(properties, name).uom).toBe('wmoUnit:km_h-1');
      }
      expect(numbersOf(layerOf(properties, 'mixingHeight')).every((v) => isWhole(v / 0.3048))).toBe(true);
      for (const name of ['temperature', 'dewpoint']) {
        expect(numbersOf(layerOf(properties, name)).every((v) => isWhole(v * 1.8 + 32))).toBe(true);
      }
      for (const name of ['windDirection', 'transportWindDirection']) {
        expect(numbersOf(layerOf(properties, name)).every((v) => v % 10 === 0 && v >= 0 && v < 360)).toBe(
          true,
        );
      }
      expect(layerOf(properties, 'probabilityOfThunder').uom).toBeUndefined();
    }
  });

  it('has gusts no lower than the wind and dew points no higher than the temperature', () => {
    fc.assert(
      fc.property(moment, anyCell, (nowMs, cell) => {
        const { series, faults } = readForecast(cell, nowMs);
        expect(faults).toEqual([]);
        const { windSpeed, windGust, temperature, dewPoint } = series.columns;
        expect(windSpeed.values.every((v, h) => v <= (windGust.values[h] as number))).toBe(true);
        expect(temperature.values.every((v, h) => v >= (dewPoint.values[h] as number))).toBe(true);
      }),
      { numRuns: 30 },
    );
  });

  it('was updated before now and less than two hours ago, about six hours after its beginning', () => {
    fc.assert(
      fc.property(moment, anyCell, (nowMs, cell) => {
        const properties = propertiesOf(cell, nowMs);
        const updatedMs = parseInstantMs(String(properties['updateTime'])) ?? Number.NaN;
        expect(nowMs - updatedMs).toBeGreaterThan(0);
        expect(nowMs - updatedMs).toBeLessThan(2 * HOUR_MS);
        const whole = spanOf(properties['validTimes']);
        expect(String(properties['validTimes'])).toMatch(/\/P7DT\d+H$/);
        expect(updatedMs - whole.fromMs).toBeGreaterThanOrEqual(6 * HOUR_MS);
        expect(updatedMs - whole.fromMs).toBeLessThan(7 * HOUR_MS);
      }),
    );
  });

  it('is the same document at every moment of an hour, and another one in the next', () => {
    fc.assert(
      fc.property(moment, fc.integer({ min: 0, max: HOUR_MS - 1 }), anyCell, (nowMs, offset, cell) => {
        const hourMs = nowMs - (nowMs % HOUR_MS);
        const document = gridpointDocument(cell, hourMs, BASE);
        expect(gridpointDocument(cell, hourMs + offset, BASE)).toEqual(document);
        expect(gridpointDocument(cell, hourMs + HOUR_MS, BASE)).not.toEqual(document);
      }),
      { numRuns: 20 },
    );
  });

  it('leaves the mixing height and the transport wind of creek block unsaid after 74 hours', () => {
    const creek = DEMO_CELLS.find((c) => c.siteId === 'creek-block') as DemoCell;
    const properties = propertiesOf(creek, Date.UTC(2026, 10, 24, 20, 5));
    const whole = spanOf(properties['validTimes']);
    for (const name of ['mixingHeight', 'transportWindSpeed', 'transportWindDirection']) {
      expect(spanOf(layerOf(properties, name).values.at(-1)?.validTime).toMs - whole.fromMs).toBe(
        74 * HOUR_MS,
      );
    }
    expect(spanOf(layerOf(properties, 'windSpeed').values.at(-1)?.validTime).toMs).toBe(whole.toMs);
  });

  it('flags a hazard without its code at ridge block only, and has layers that no office fills', () => {
    for (const cell of DEMO_CELLS) {
      const nowMs = clockTimeMs('2026-11-24', '09:00', cell.timeZone);
      const properties = propertiesOf(cell, nowMs);
      const values = layerOf(properties, 'hazards').values.map((v) => v.value);
      expect(values).toEqual(cell.siteId === 'ridge-block' ? [[], []] : []);
      for (const name of ['atmosphericDispersionIndex', 'redFlagThreatIndex', 'hainesIndex', 'pressure']) {
        expect(layerOf(properties, name)).toEqual({ values: [] });
      }
    }
  });

  it('draws its cell as five corners, closed, longitude first, around the site', () => {
    for (const cell of DEMO_CELLS) {
      const { geometry } = gridpointDocument(cell, Date.UTC(2026, 10, 24, 20, 5), BASE);
      const [ring] = geometry.coordinates;
      expect(ring).toHaveLength(5);
      expect(ring?.[0]).toEqual(ring?.[4]);
      expect(ring?.every(([lon, lat]) => (lon ?? 0) < -100 && (lat ?? 0) > 30)).toBe(true);
      expect(readingOf(cell, Date.UTC(2026, 10, 24, 20, 5)).holdsPlace).toBe(true);
    }
  });
});

function readingOf(cell: DemoCell, nowMs: number) {
  const bytes = Buffer.from(JSON.stringify(gridpointDocument(cell, nowMs, BASE)));
  return readGridpoint(bytes, { fetchedAtMs: nowMs, place: cell.place });
}

const readForecast = (cell: DemoCell, nowMs: number) => readingOf(cell, nowMs).forecast;

describe('run lengths', () => {
  it('are written in days and hours', () => {
    expect([1, 23, 24, 30, 186].map((h) => durationText(h * HOUR_MS))).toEqual([
      'PT1H',
      'PT23H',
      'P1D',
      'P1DT6H',
      'P7DT18H',
    ]);
  });

  it('give back every hour that went in', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 1, maxLength: 80 }), (hours) => {
        const fromMs = Date.UTC(2026, 2, 2, 18);
        const entries = runLength(
          fromMs,
          fromMs + hours.length * HOUR_MS,
          (ms) => hours[(ms - fromMs) / HOUR_MS] as number,
        );
        const back = entries.flatMap(({ validTime, value }) => {
          const span = spanOf(validTime);
          return Array.from({ length: (span.toMs - span.fromMs) / HOUR_MS }, () => value);
        });
        expect(back).toEqual(hours);
      }),
    );
  });

  it('of amounts are sums over blocks of six hours, the first and last cut short', () => {
    const fromMs = Date.UTC(2026, 2, 2, 16);
    expect(sixHourSums(fromMs, fromMs + 10 * HOUR_MS, () => 0.5)).toEqual([
      { validTime: '2026-03-02T16:00:00+00:00/PT2H', value: 1 },
      { validTime: '2026-03-02T18:00:00+00:00/PT6H', value: 3 },
      { validTime: '2026-03-03T00:00:00+00:00/PT2H', value: 1 },
    ]);
  });
});
