import { describe, expect, it } from 'vitest';
import {
  relativeHumidityFromDewPoint,
  saturationVapourPressureHpa,
  vapourPressureDeficitHpa,
} from '#core/series/humidity.ts';

describe('relative humidity from temperature and dew point', () => {
  it('is 44.2484765 % at 25 and 12 °C (MetPy 1.4 documentation, Bolton 1980; J.2 row 16)', () => {
    expect(relativeHumidityFromDewPoint(25, 12)).toBeCloseTo(44.248_476_5, 5);
  });

  it('is 53.799 % at 25 and 15 °C (J.2 row 19, Bolton)', () => {
    expect(Math.abs(relativeHumidityFromDewPoint(25, 15) - 53.799)).toBeLessThan(0.01);
  });

  // J.2 rows 17, 20 and 21 use another saturation formula (Alduchov and Eskridge 1996); the two agree to 0.1 %.
  it.each([
    [25, 12, 44.2818],
    [35, 5, 15.515],
    [-10, -12, 85.29],
  ])('at %d and %d °C lies within 0.1 of the Alduchov-Eskridge value %d %%', (t, td, expected) => {
    expect(Math.abs(relativeHumidityFromDewPoint(t, td) - expected)).toBeLessThan(0.1);
  });

  it('is capped at 100 where the dew point lies up to one degree above (FAQ of the NWS API: strange values happen), and is none beyond', () => {
    expect(relativeHumidityFromDewPoint(10, 10)).toBe(100);
    expect(relativeHumidityFromDewPoint(10, 11)).toBe(100);
    expect(relativeHumidityFromDewPoint(10, 11.01)).toBeNaN();
  });

  it('is none where either is none', () => {
    expect(relativeHumidityFromDewPoint(Number.NaN, 10)).toBeNaN();
    expect(relativeHumidityFromDewPoint(10, Number.NaN)).toBeNaN();
  });

  it('falls as the air warms and rises with the dew point', () => {
    for (let t = -20; t < 50; t += 5) {
      expect(relativeHumidityFromDewPoint(t + 1, t - 10)).toBeLessThan(
        relativeHumidityFromDewPoint(t, t - 10),
      );
      expect(relativeHumidityFromDewPoint(t, t - 9)).toBeGreaterThan(relativeHumidityFromDewPoint(t, t - 10));
    }
  });
});

describe('vapour pressure', () => {
  it('over water at 0 °C is 6.112 hPa (Bolton 1980, equation 10)', () => {
    expect(saturationVapourPressureHpa(0)).toBe(6.112);
  });

  // J.2 rows 25 and 26 use Alduchov and Eskridge; Bolton lies up to 0.3 % above it.
  it.each([
    [30, 20, 33.893],
    [20, 50, 11.667],
  ])('deficit at %d °C and %d %% is within 0.3 %% of %d hPa', (t, rh, expected) => {
    expect(Math.abs(vapourPressureDeficitHpa(t, rh) - expected) / expected).toBeLessThan(0.003);
  });

  it('deficit at saturation is zero (J.2 row 27)', () => {
    expect(vapourPressureDeficitHpa(25, 100)).toBe(0);
  });

  it('deficit without humidity is none', () => expect(vapourPressureDeficitHpa(25, Number.NaN)).toBeNaN());
});
