// Humidity from temperature and dew point, over water.

/**
 * Saturation vapour pressure over water [hPa] at a temperature [°C].
 * Bolton 1980, Monthly Weather Review 108, equation 10.
 */
export const saturationVapourPressureHpa = (temperatureC: number): number =>
  6.112 * Math.exp((17.67 * temperatureC) / (temperatureC + 243.5));

/**
 * Relative humidity [%] from temperature and dew point [°C]; capped at 100 where the dew point is up to 1 °C above
 * the temperature (rounding in forecasts); NaN beyond that, since one of the two is wrong.
 */
export function relativeHumidityFromDewPoint(temperatureC: number, dewPointC: number): number {
  if (dewPointC > temperatureC + 1) return Number.NaN;
  return Math.min(
    100,
    (100 * saturationVapourPressureHpa(dewPointC)) / saturationVapourPressureHpa(temperatureC),
  );
}

/** Vapour pressure deficit [hPa] from temperature [°C] and relative humidity [%]. */
export const vapourPressureDeficitHpa = (temperatureC: number, relativeHumidityPct: number): number =>
  saturationVapourPressureHpa(temperatureC) * (1 - relativeHumidityPct / 100);
