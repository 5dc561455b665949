import { describe, expect, it } from 'vitest';
import { ELEMENT_NAMES, ELEMENTS, isElement } from '#core/series/elements.ts';
import { endOf, hourAt, makeSeries, missingReasonAt, valueAt } from '#core/series/hourly-series.ts';
import { unitsOf } from '#core/units/quantity.ts';
import { HOUR_MS } from '#core/units/time.ts';
import { seriesOf } from '../../builders/forecast.ts';

describe('an hourly series', () => {
  const series = seriesOf(10 * HOUR_MS, 2, { windSpeed: (_, h) => [4, null][h] ?? null });

  it('ends one hour after its last hour begins', () => expect(endOf(series)).toBe(12 * HOUR_MS));

  it('holds an instant in the hour that has begun', () => {
    expect(
      [10 * HOUR_MS, 11 * HOUR_MS - 1, 11 * HOUR_MS, 9 * HOUR_MS].map((ms) => hourAt(series, ms)),
    ).toEqual([0, 0, 1, -1]);
  });

  it('has no value in a gap, before it, after it and in a layer that is absent', () => {
    expect([valueAt(series, 'windSpeed', 0), valueAt(series, 'windSpeed', 1)]).toEqual([4, null]);
    expect([
      valueAt(series, 'windSpeed', -1),
      valueAt(series, 'windSpeed', 2),
      valueAt(series, 'windGust', 0),
    ]).toEqual([null, null, null]);
  });

  it('says why an hour has no value', () => {
    expect(missingReasonAt(series, 'windSpeed', 1)).toBe('gap');
    expect(missingReasonAt(series, 'windSpeed', 2)).toBe('ended');
    expect(missingReasonAt(series, 'windGust', 0)).toBe('layer-absent');
  });

  it('has a column for every element, whatever it was given', () => {
    expect(Object.keys(makeSeries(0, 1, {}).columns).sort()).toEqual([...ELEMENT_NAMES].sort());
  });
});

describe('the table of elements', () => {
  it('gives every element a range, a positive scale and units that people can write', () => {
    for (const [name, facts] of Object.entries(ELEMENTS)) {
      expect(facts.least, name).toBeLessThan(facts.most);
      expect(facts.roomScale, name).toBeGreaterThan(0);
      if (facts.dimension !== 'plain') expect(unitsOf(facts.dimension).length, name).toBeGreaterThan(0);
    }
  });

  it('knows no element by the name of something that every object has', () => {
    expect(['constructor', 'toString', '__proto__', 'windspeed', ''].filter(isElement)).toEqual([]);
  });
});
