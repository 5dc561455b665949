import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { observedValue } from '#core/watch/observed-value.ts';
import type { Station } from '#core/watch/station.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { AIRPORT, ON_SITE, seen } from '../../builders/watch.ts';

const speed = (wind: string, more: Partial<Observation> = {}, station: Station = ON_SITE, roughnessM = 0.1) =>
  observedValue('windSpeed', seen('12:00', wind, more), station, {
    ...DEFAULT_WATCH,
    limits: { ...DEFAULT_WATCH.limits, roughnessM },
  });
const gust = (
  gustMps: number | null,
  wind: string,
  station: Station = ON_SITE,
  more: Partial<Observation> = {},
) => observedValue('windGust', seen('12:00', wind, { gustMps, ...more }), station, DEFAULT_WATCH);

describe('an observed wind as a limit means it: at 10 m, mean of two minutes', () => {
  it('is itself where it was measured so', () => {
    expect(speed('180 5')).toEqual({ value: 5, low: 5, high: 5 });
    expect(speed('VRB 5')).toEqual({ value: 5, low: 5, high: 5 });
    expect(speed('none 5')).toEqual({ value: 5, low: 5, high: 5 });
  });

  // Log law: ratio of the wind at 10 m to that at 20 ft for roughness 0.03, 0.1 and 0.2 m (computed; the trade's 1.15
  // lies just beyond the last).
  it.each([
    [0.03, 1.0931],
    [0.1, 1.1204],
    [0.2, 1.1448],
  ])('at 20 ft over roughness %d m is at most %d times as much, and no less', (roughnessM, ratio) => {
    const found = speed('180 10', { windHeightM: 6.096 }, ON_SITE, roughnessM);
    expect(found?.low).toBe(10);
    expect(found?.high).toBeCloseTo(10 * ratio, 3);
  });

  it('carried down from higher up is at least the log law of it, and no more', () => {
    const found = speed('180 10', { windHeightM: 50 });
    expect(found?.low).toBeCloseTo((10 * Math.log(100)) / Math.log(500), 9);
    expect(found?.high).toBe(10);
  });

  it('of which nobody said how high is taken as held in the hand', () => {
    const station = { ...ON_SITE, windHeightM: null };
    expect(speed('180 10', {}, station)).toEqual(speed('180 10', { windHeightM: 2 }));
    // ln(10/0.1)/ln(2/0.1)
    expect(speed('180 10', { windHeightM: 2 })?.high).toBeCloseTo(15.3724, 3);
  });

  it('in the roughness itself says nothing of 10 m', () => {
    expect(speed('180 10', { windHeightM: 0.1 })).toEqual({ value: 10, low: 10, high: 112 });
    expect(speed('180 10', { windHeightM: Number.NaN })?.high).toBe(112);
  });

  // Ratios of the gust factors 1.49, 1.55, 1.66, 1.75 (WMO/TD-1555, in-land; from memory).
  it.each([
    [3, 10 / 1.55, 10],
    [60, (10 * 1.49) / 1.55, 10],
    [120, 10, 10],
    [180, 10, 10],
    [600, 10, (10 * 1.66) / 1.55],
    [3600, 10, (10 * 1.75) / 1.55],
    [7200, 10, 112],
  ])('as a mean of %d s lies between %d and %d', (windAveragingS, low, high) => {
    const found = speed('180 10', { windAveragingS });
    expect(found?.low).toBeCloseTo(low, 9);
    expect(found?.high).toBeCloseTo(high, 9);
  });

  it('of which nobody said over how long may be either', () => {
    const found = speed('180 10', {}, { ...ON_SITE, windAveragingS: null });
    expect(found?.low).toBeCloseTo(10 / 1.55, 9);
    expect(found?.high).toBeCloseTo((10 * 1.66) / 1.55, 9);
  });

  it('that is calm is below what the instrument feels, and a blank is nothing', () => {
    expect(speed('calm', {}, AIRPORT)).toEqual({ value: 0, low: 0, high: 1.5 });
    expect(speed('none')).toBeNull();
    expect(speed('180 400')).toBeNull();
  });
});

describe('an observed gust', () => {
  it('is itself at 10 m, and no less than the mean', () => {
    expect(gust(8, '180 5')).toEqual({ value: 8, low: 8, high: 8 });
    expect(gust(3, '180 5')).toEqual({ value: 5, low: 5, high: 5 });
    expect(gust(8, 'none')).toEqual({ value: 8, low: 8, high: 8 });
  });

  it('of which an airport tells none is less than 10 kt above the mean (FMH-1, 5.4.4)', () => {
    const found = gust(null, '180 5', AIRPORT);
    expect(found?.low).toBe(5);
    expect(found?.high).toBeCloseTo(5 + 5.1444, 4);
  });

  it('of which any other station tells none is only known to be no less than the mean: blank is not calm', () => {
    expect(gust(null, '180 5')).toEqual({ value: 5, low: 5, high: 140 });
    expect(gust(null, 'none')).toBeNull();
  });
});

describe('other elements', () => {
  const of = (element: 'relativeHumidity' | 'vapourPressureDeficit' | 'windDirection', o: Observation) =>
    observedValue(element, o, ON_SITE, DEFAULT_WATCH);

  it('humidity is measured, or follows from temperature and dew point (Bolton 1980; MetPy 1.4 documentation)', () => {
    expect(of('relativeHumidity', seen('12:00', '180 5', { relativeHumidityPct: 33 }))?.value).toBe(33);
    const derived = of('relativeHumidity', seen('12:00', '180 5', { temperatureC: 25, dewPointC: 12 }));
    expect(derived?.value).toBeCloseTo(44.2484765, 5);
  });

  it('what is absurd or lacks a part is nothing', () => {
    expect(of('relativeHumidity', seen('12:00', '180 5', { relativeHumidityPct: 140 }))).toBeNull();
    expect(of('relativeHumidity', seen('12:00', '180 5', { temperatureC: 10, dewPointC: 20 }))).toBeNull();
    expect(of('relativeHumidity', seen('12:00', '180 5', { temperatureC: 25 }))).toBeNull();
    expect(of('vapourPressureDeficit', seen('12:00', '180 5', { relativeHumidityPct: 20 }))).toBeNull();
  });

  it('a direction is one only where it blows from one', () => {
    expect(of('windDirection', seen('12:00', '0 5'))?.value).toBe(360);
    expect(of('windDirection', seen('12:00', 'VRB 2'))).toBeNull();
    expect(of('windDirection', seen('12:00', 'calm'))).toBeNull();
  });
});
