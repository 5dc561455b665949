import { describe, expect, it } from 'vitest';
import { derive } from '#core/series/derive.ts';
import type { Element } from '#core/series/elements.ts';
import { missingReasonAt, valueAt } from '#core/series/hourly-series.ts';
import { type Sketch, seriesOf } from '../../builders/forecast.ts';

const derived = (sketch: Sketch, gustFactor: number | null = null) =>
  derive(seriesOf(0, 1, sketch), { gustFactor });
const told = (sketch: Sketch, element: Element, gustFactor: number | null = null) => {
  const series = derived(sketch, gustFactor);
  return { value: valueAt(series, element, 0), marked: series.columns[element].derived?.[0] === 1 };
};

describe('what other elements give', () => {
  it('humidity comes from temperature and dew point, and is marked', () => {
    const { value, marked } = told({ temperature: 25, dewPoint: 12 }, 'relativeHumidity');
    expect(value).toBeCloseTo(44.248_476_5, 5); // J.2 row 16
    expect(marked).toBe(true);
  });

  it('ventilation rate is mixing height times transport wind: 600 m and 4 m/s give 2,400 m²/s (B.1)', () => {
    expect(told({ mixingHeight: 600, transportWindSpeed: 4 }, 'ventilationRate')).toEqual({
      value: 2400,
      marked: true,
    });
  });

  it('a mixing height of zero gives a ventilation rate of zero, not a missing one', () => {
    expect(told({ mixingHeight: 0, transportWindSpeed: 4 }, 'ventilationRate').value).toBe(0);
  });

  it('vapour pressure deficit uses the humidity, forecast or derived', () => {
    expect(told({ temperature: 25, relativeHumidity: 100 }, 'vapourPressureDeficit').value).toBe(0);
    expect(told({ temperature: 25, dewPoint: 25 }, 'vapourPressureDeficit').value).toBe(0);
  });

  it('a value that the forecast gives is never replaced', () => {
    const sketch: Sketch = {
      relativeHumidity: 20,
      temperature: 25,
      dewPoint: 20,
      ventilationRate: 50,
      mixingHeight: 1000,
      transportWindSpeed: 10,
    };
    expect(told(sketch, 'relativeHumidity')).toEqual({ value: 20, marked: false });
    expect(told(sketch, 'ventilationRate')).toEqual({ value: 50, marked: false });
  });
});

describe('what cannot be worked out stays missing, with its reason', () => {
  it.each<[string, Sketch, Element]>([
    ['humidity without dew point', { temperature: 25 }, 'relativeHumidity'],
    [
      'humidity with a dew point far above the temperature',
      { temperature: 5, dewPoint: 9 },
      'relativeHumidity',
    ],
    ['ventilation without transport wind', { mixingHeight: 600 }, 'ventilationRate'],
    ['ventilation without mixing height', { transportWindSpeed: 4, mixingHeight: null }, 'ventilationRate'],
    ['deficit without temperature', { relativeHumidity: 50 }, 'vapourPressureDeficit'],
    ['gust where no factor is allowed', { windSpeed: 5 }, 'windGust'],
  ])('%s', (_, sketch, element) => {
    const series = derived(sketch);
    expect(valueAt(series, element, 0)).toBeNull();
    expect(missingReasonAt(series, element, 0)).toBe('layer-absent');
  });
});

describe('gusts', () => {
  it('come from the wind where the site allows a factor, and are marked', () => {
    expect(told({ windSpeed: 5 }, 'windGust', 1.5)).toEqual({ value: 7.5, marked: true });
  });

  it('that the forecast gives are not replaced by the factor', () => {
    expect(told({ windSpeed: 5, windGust: 6 }, 'windGust', 1.5)).toEqual({ value: 6, marked: false });
  });

  it('below the wind of the same hour are no gusts: the hour takes the wind (weather-gov/api issue 48)', () => {
    expect(told({ windSpeed: 9, windGust: 4 }, 'windGust')).toEqual({ value: 9, marked: true });
  });

  it('equal to the wind stay as they are', () => {
    expect(told({ windSpeed: 9, windGust: 9 }, 'windGust')).toEqual({ value: 9, marked: false });
  });

  it('derived hours do not change the series that was given', () => {
    const series = seriesOf(0, 1, { windSpeed: 9, windGust: 4, mixingHeight: 600, transportWindSpeed: 4 });
    derive(series, { gustFactor: 1.5 });
    expect(valueAt(series, 'windGust', 0)).toBe(4);
    expect(valueAt(series, 'ventilationRate', 0)).toBeNull();
  });
});
