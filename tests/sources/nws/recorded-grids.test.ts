// Every recorded raw grid: read without a fault, and value by value as a second decoding reads it.

import { expect, it } from 'vitest';
import { ELEMENTS, type Element } from '#core/series/elements.ts';
import { missingReasonAt, valueAt } from '#core/series/hourly-series.ts';
import type { Place } from '#core/site/site.ts';
import { readGridpoint } from '#sources/nws/gridpoint.ts';
import { describeRecorded, parsed, recorded, recordedNames } from '../recorded.ts';
import { documentHours, hourlyValues, type Properties } from './second-decoding.ts';

/** Element → the layer's name in the documentation. */
const NAMES: readonly (readonly [Element, string])[] = [
  ['windSpeed', 'windSpeed'],
  ['windGust', 'windGust'],
  ['windDirection', 'windDirection'],
  ['relativeHumidity', 'relativeHumidity'],
  ['temperature', 'temperature'],
  ['dewPoint', 'dewpoint'],
  ['skyCover', 'skyCover'],
  ['mixingHeight', 'mixingHeight'],
  ['transportWindSpeed', 'transportWindSpeed'],
  ['transportWindDirection', 'transportWindDirection'],
  ['probabilityOfPrecipitation', 'probabilityOfPrecipitation'],
  ['quantitativePrecipitation', 'quantitativePrecipitation'],
  ['probabilityOfThunder', 'probabilityOfThunder'],
  ['lightningActivityLevel', 'lightningActivityLevel'],
  ['lowVisibilityIndex', 'lowVisibilityOccurrenceRiskIndex'],
  ['redFlagThreat', 'redFlagThreatIndex'],
];

const propertiesOf = (bytes: Uint8Array) => (parsed(bytes) as { properties: Properties }).properties;

describeRecorded('a recorded grid', () => {
  const names = recordedNames('gridpoint-raw_');

  it('is there in twelve places', () => {
    expect(names).toHaveLength(12);
  });

  it.each(names)('%s has the values that a second decoding reads', (name) => {
    const { bytes, nowMs } = recorded(name);
    const { forecast } = readGridpoint(bytes, { fetchedAtMs: nowMs });
    const properties = propertiesOf(bytes);
    const { start, hours } = documentHours(properties);
    expect(forecast.series.startMs).toBe(start.epochMilliseconds);
    expect(forecast.series.hours).toBe(hours);
    let compared = 0;
    for (const [element, layer] of NAMES) {
      const expected = hourlyValues(properties, layer, layer === 'quantitativePrecipitation');
      for (const [h, value] of expected.entries()) {
        const ours = valueAt(forecast.series, element, h);
        if (value === null) expect(ours, `${layer} hour ${h}`).toBeNull();
        else expect(ours, `${layer} hour ${h}`).toBeCloseTo(value, 8);
        if (value !== null) compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(hours * 8);
  });

  it.each(names)('%s has the dispersion index of whichever layer is filled', (name) => {
    const { bytes } = recorded(name);
    const { forecast } = readGridpoint(bytes, { fetchedAtMs: 0 });
    const properties = propertiesOf(bytes);
    const filled = ['dispersionIndex', 'atmosphericDispersionIndex'].find(
      (layer) => properties[layer]?.values.length,
    );
    const expected = filled
      ? hourlyValues(properties, filled, false)
      : Array(forecast.series.hours).fill(null);
    const ours = expected.map((_, h) => valueAt(forecast.series, 'dispersionIndex', h));
    expect(ours).toEqual(expected);
  });

  it.each(names)('%s reads without a fault, every hour with a value or a reason', (name) => {
    const { bytes, nowMs } = recorded(name);
    const { forecast, elevationM } = readGridpoint(bytes, { fetchedAtMs: nowMs });
    expect(forecast.faults).toEqual([]);
    expect(forecast.cell).toBe(name.replace(/^gridpoint-raw_([A-Z]{3})-(\d+)-(\d+)_.*/, '$1 $2,$3'));
    expect(elevationM).toBeGreaterThanOrEqual(0);
    // Reference: the span begins 6.2 to 7.0 h before the update time in all recordings.
    const leadH = ((forecast.issuedAtMs ?? Number.NaN) - forecast.series.startMs) / 3_600_000;
    expect(leadH).toBeGreaterThan(5.9);
    expect(leadH).toBeLessThan(7.1);
    for (const element of Object.keys(ELEMENTS) as Element[]) {
      for (let h = 0; h < forecast.series.hours; h += 1) {
        const reason = missingReasonAt(forecast.series, element, h);
        expect(valueAt(forecast.series, element, h) === null).toBe(reason !== 'none');
      }
    }
  });

  it('ends a layer where the reference measured its end', () => {
    const lastHour = (name: string, element: Element) => {
      const { forecast } = readGridpoint(recorded(name).bytes, { fetchedAtMs: 0 });
      const { hours } = forecast.series;
      return Array.from({ length: hours }, (_, h) => h + 1).findLast(
        (h) => valueAt(forecast.series, element, h - 1) !== null,
      );
    };
    // Reference table 1.3 and the README of the recordings: hours from the grid's start.
    expect(lastHour('gridpoint-raw_OAX-59-58_20241203_reltime.json', 'mixingHeight')).toBe(51);
    expect(lastHour('gridpoint-raw_BMX-59-84_20240220.json', 'mixingHeight')).toBe(76);
    expect(lastHour('gridpoint-raw_RAH-67-53_20190123.json', 'windGust')).toBe(104);
    expect(lastHour('gridpoint-raw_RAH-67-53_20190123.json', 'windSpeed')).toBe(176);
    expect(lastHour('gridpoint-raw_AFG-368-294_202606_reltime.json', 'transportWindSpeed')).toBe(179);
    expect(lastHour('gridpoint-raw_MTR-90-105_20240326_reltime.json', 'relativeHumidity')).toBe(167);
  });

  it('keeps the empty-list hazards as unspecified', () => {
    const hazards = (name: string) =>
      readGridpoint(recorded(name).bytes, { fetchedAtMs: 0 }).forecast.hazards;
    const three = hazards('gridpoint-raw_AFG-492-119_202606_reltime.json');
    expect(three.map(({ phenomenon }) => phenomenon)).toEqual([null, null, null]);
    expect(
      hazards('gridpoint-raw_TAE-58-65_20220204.json').some(({ phenomenon }) => phenomenon === null),
    ).toBe(true);
  });

  // The recorded points answer that names each cell.
  const PLACES: readonly (readonly [string, Place])[] = [
    ['gridpoint-raw_BMX-59-84_20240220.json', { latDeg: 33.521, lonDeg: -86.812 }],
    ['gridpoint-raw_HFO-154-145_20240409_reltime.json', { latDeg: 21.305, lonDeg: -157.858 }],
    ['gridpoint-raw_AFG-492-119_202606_reltime.json', { latDeg: 64.837, lonDeg: -147.739 }],
    ['gridpoint-raw_AFG-368-294_202606_reltime.json', { latDeg: 69.519, lonDeg: -157.105 }],
  ];

  it.each(PLACES)('%s holds the place that led to it, and no other', (name, place) => {
    const { bytes } = recorded(name);
    expect(readGridpoint(bytes, { fetchedAtMs: 0, place }).holdsPlace).toBe(true);
    for (const [, other] of PLACES) {
      if (other !== place)
        expect(readGridpoint(bytes, { fetchedAtMs: 0, place: other }).holdsPlace).toBe(false);
    }
  });
});

describeRecorded('the recorded pair of Tallahassee', () => {
  it('has a place 1 km outside of the cell that the points answer names: flagged, not silently taken', () => {
    const { bytes } = recorded('gridpoint-raw_TAE-58-65_20220204.json');
    const reading = readGridpoint(bytes, { fetchedAtMs: 0, place: { latDeg: 30, lonDeg: -85 } });
    expect(reading.holdsPlace).toBe(false);
    expect(reading.outsideM).toBeGreaterThan(900);
    expect(reading.outsideM).toBeLessThan(1300);
    expect(reading.forecast.faults.map(({ kind }) => kind)).toEqual(['place-outside-cell']);
  });
});

interface Period {
  readonly startTime: string;
  readonly temperature: number;
  readonly relativeHumidity: { readonly value: number };
  readonly windSpeed: string;
}

describeRecorded('a recorded grid beside the hourly forecast of the same cell', () => {
  // Names after the cell; the one of 2020 has another shape and no grid of its cell.
  const pairs = recordedNames('hourly_').filter((name) => !name.includes('old-shape'));

  it.each(pairs)('%s: same hours, humidity equal, temperature within 1 °F, wind within 3 mph', (name) => {
    const { bytes, nowMs } = recorded(name.replace('hourly_', 'gridpoint-raw_'));
    const { series } = readGridpoint(bytes, { fetchedAtMs: nowMs }).forecast;
    const { periods } = (parsed(recorded(name).bytes) as { properties: { periods: readonly Period[] } })
      .properties;
    let compared = 0;
    for (const period of periods) {
      const h = Math.round((Date.parse(period.startTime) - series.startMs) / 3_600_000);
      const [humidity, temperature, wind] = (['relativeHumidity', 'temperature', 'windSpeed'] as const).map(
        (element) => valueAt(series, element, h),
      );
      if (humidity == null || temperature == null || wind == null) continue;
      compared += 1;
      expect(Math.round(humidity), `hour ${h}`).toBe(period.relativeHumidity.value);
      expect(Math.abs((temperature * 9) / 5 + 32 - period.temperature)).toBeLessThanOrEqual(1);
      expect(Math.abs(wind / 0.44704 - Number.parseFloat(period.windSpeed))).toBeLessThanOrEqual(3);
    }
    expect(compared).toBeGreaterThan(140);
  });

  it('comes in four pairs', () => {
    expect(pairs).toHaveLength(4);
  });
});
