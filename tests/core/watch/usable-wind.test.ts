import { describe, expect, it } from 'vitest';
import { usableWind } from '#core/watch/usable-wind.ts';
import { AIRPORT, ON_SITE, seen } from '../../builders/watch.ts';

const usable = (wind: string, station = ON_SITE) => usableWind(seen('12:00', wind), station);

describe('the wind of an observation', () => {
  it.each([
    ['180 5', { kind: 'blowing', fromDeg: 180, speedMps: 5 }],
    ['360 5', { kind: 'blowing', fromDeg: 360, speedMps: 5 }],
    // Both 0 and 360 occur in sources (weather-gov/api issue 93, open-meteo issue 695): both are north.
    ['0 5', { kind: 'blowing', fromDeg: 360, speedMps: 5 }],
    // 'Northwest wind around 0 mph' is calm (weather-gov/api issue 138).
    ['315 0', { kind: 'calm' }],
    ['0 0', { kind: 'calm' }],
    ['calm', { kind: 'calm' }],
    // Variable is no direction, and never 0 (golles/ha-knmi issue 1, weather-gov/api issue 52).
    ['VRB 2', { kind: 'variable', speedMps: 2 }],
    ['VRB 0', { kind: 'calm' }],
    // Blank is not calm (ws4kp issue 158).
    ['none', { kind: 'missing', speedMps: null }],
    ['none 4', { kind: 'missing', speedMps: 4 }],
    ['none 0', { kind: 'missing', speedMps: 0 }],
    // Absurd figures are missing.
    ['180 -1', { kind: 'missing', speedMps: null }],
    ['180 113', { kind: 'missing', speedMps: null }],
    ['180 NaN', { kind: 'missing', speedMps: null }],
    ['NaN 5', { kind: 'missing', speedMps: 5 }],
    ['-10 5', { kind: 'missing', speedMps: 5 }],
    ['361 5', { kind: 'missing', speedMps: 5 }],
  ])('%s is %j', (wind, expected) => {
    expect(usable(wind)).toEqual(expected);
  });

  it('below what the station can feel is calm, whatever direction it tells', () => {
    expect(usable('180 1.4', AIRPORT)).toEqual({ kind: 'calm' });
    expect(usable('180 1.5', AIRPORT).kind).toBe('blowing');
  });
});
