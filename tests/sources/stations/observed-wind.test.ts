// The law of directions and speeds. Kinds and north: FMH-1 chapter 5 (calm is 00000KT, variable VRB, north 360); public
// bug reports are named beside the values that they are about.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { northAs360, observedWind } from '#sources/stations/observed-wind.ts';
import { trueDirection } from '#sources/stations/true-direction.ts';

const CALM_BELOW = 0.5;
const wind = (speedMps: number | null, direction: number | 'variable' | 'calm' | null) =>
  observedWind({ speedMps, direction }, CALM_BELOW);

describe('calm, variable, missing and north', () => {
  it.each([
    // weather-gov/api#93, open-meteo#695: both 0 and 360 occur.
    ['0 with a speed is north', 4, 0, { kind: 'blowing', fromDeg: 360, speedMps: 4 }],
    ['360 is north', 4, 360, { kind: 'blowing', fromDeg: 360, speedMps: 4 }],
    ['1 is one degree', 4, 1, { kind: 'blowing', fromDeg: 1, speedMps: 4 }],
    ['0 without a speed is calm', 0, 0, { kind: 'calm' }],
    // weather-gov/api#138: a wind of 0 has no direction.
    ['any direction without a speed is calm', 0, 315, { kind: 'calm' }],
    ['below what the instrument feels it is calm', 0.49, 200, { kind: 'calm' }],
    ['exactly what it feels blows', 0.5, 200, { kind: 'blowing', fromDeg: 200, speedMps: 0.5 }],
    // weather-gov/api#52, golles/ha-knmi#1: variable is neither null nor 0.
    ['variable stays variable', 2, 'variable', { kind: 'variable', speedMps: 2 }],
    ['variable too light to feel is calm', 0.2, 'variable', { kind: 'calm' }],
    ['no direction with a speed is missing, the speed known', 6, null, { kind: 'missing', speedMps: 6 }],
    ['no speed is missing, whatever the direction', null, 200, { kind: 'missing', speedMps: null }],
    ['no speed and variable is missing', null, 'variable', { kind: 'missing', speedMps: null }],
    ['neither is missing', null, null, { kind: 'missing', speedMps: null }],
    ['told calm without a speed is calm', null, 'calm', { kind: 'calm' }],
    ['told calm at a speed has no direction', 6, 'calm', { kind: 'missing', speedMps: 6 }],
    ['a direction beyond the circle is missing', 6, 361, { kind: 'missing', speedMps: 6 }],
    ['a negative direction is missing', 6, -1, { kind: 'missing', speedMps: 6 }],
    ['NaN as direction is missing', 6, Number.NaN, { kind: 'missing', speedMps: 6 }],
    ['NaN as speed is missing', Number.NaN, 200, { kind: 'missing', speedMps: null }],
    ['a negative speed is missing', -1, 200, { kind: 'missing', speedMps: null }],
    ['an absurd speed is missing', 113, 200, { kind: 'missing', speedMps: null }],
    ['an absurd speed is not calm, even if called so', 113, 'calm', { kind: 'missing', speedMps: null }],
  ] as const)('%s', (_, speedMps, direction, expected) => {
    expect(wind(speedMps, direction)).toEqual(expected);
  });

  it('what blows has a direction in (0, 360] and a speed that can be felt, whatever is told', () => {
    const direction = fc.oneof(
      fc.double(),
      fc.integer({ min: -10, max: 370 }),
      fc.constantFrom('variable' as const, 'calm' as const, null),
    );
    fc.assert(
      fc.property(
        fc.option(fc.oneof(fc.double(), fc.double({ min: 0, max: 120, noNaN: true }))),
        direction,
        fc.double({ min: 0, max: 3, noNaN: true }),
        (speedMps, told, calmBelow) => {
          const seen = observedWind({ speedMps, direction: told }, calmBelow);
          if (seen.kind !== 'blowing') return;
          expect(typeof told).toBe('number');
          expect(seen.fromDeg > 0 && seen.fromDeg <= 360).toBe(true);
          expect(seen.speedMps > 0 && seen.speedMps >= calmBelow).toBe(true);
        },
      ),
    );
  });
});

describe('a direction as told', () => {
  const known = { reference: 'true', declinationDeg: 13, mountDeg: -40 } as const;
  const unknown = { reference: 'true', declinationDeg: null, mountDeg: null } as const;

  it.each([
    ['true', 200, 200],
    // Easterly declination is added to a magnetic bearing.
    ['magnetic', 350, 3],
    ['magnetic', 347, 360],
    ['relative', 10, 330],
    ['relative', 40, 360],
  ] as const)('%s %d is %d true', (reference, deg, expected) => {
    expect(trueDirection(deg, reference, known)).toBe(expected);
  });

  it.each(['magnetic', 'relative'] as const)('%s is refused where the offset is not known', (reference) => {
    expect(trueDirection(200, reference, unknown)).toBeNull();
  });

  it('north is 360 after every turn', () => {
    expect([0, 360, 720, -360].map(northAs360)).toEqual([360, 360, 360, 360]);
  });
});
