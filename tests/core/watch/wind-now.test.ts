import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { windNow } from '#core/watch/wind-now.ts';
import { AIRPORT, clock, every, ON_SITE, seen } from '../../builders/watch.ts';
import { type WatchText, watchInput } from '../../builders/watch-input.ts';

const now = (observations: readonly Observation[], text: WatchText = {}) =>
  windNow(watchInput({ stations: [ON_SITE, AIRPORT], observations, ...text }));

describe('the wind of now', () => {
  it('is the mean of the last minutes, with who says it, how old it is and where the smoke goes', () => {
    const swings = every(1, '12:30', '13:00', (m) => (m % 2 ? '350 6' : '10 4'), { gustMps: 9 });
    // Five observations, three from 10 and two from 350: mean 2.02°, sigma 9.80°, computed apart by unit vectors.
    const found = now(swings);
    expect(found).toMatchObject({
      station: 'mast',
      passedOver: [],
      observedAtMs: clock('13:00'),
      kind: 'blowing',
      gustMps: 9,
      speedMps: expect.closeTo(4.8, 9),
      resultant: expect.closeTo(0.98542, 5),
    });
    expect(found.fromDeg).toBeCloseTo(2.0199, 3);
    expect(found.smokeToDeg).toBeCloseTo(182.0199, 3);
    expect(found.sigmaDeg).toBeCloseTo(9.8034, 3);
  });

  it('says why those before it were passed over', () => {
    const airport = seen('12:53', '270 5', { station: 'KXYZ' });
    expect(now([...every(5, '11:00', '12:30', '180 5'), airport])).toMatchObject({
      station: 'KXYZ',
      passedOver: [{ station: 'mast', why: 'silent' }],
      fromDeg: expect.closeTo(270, 9),
    });
  });

  it('calm, variable and missing stay what they are: no direction, and no figure that is none', () => {
    const of = (wind: string) => now(every(5, '12:00', '13:00', wind));
    expect(of('calm')).toMatchObject({
      kind: 'calm',
      fromDeg: null,
      smokeToDeg: null,
      speedMps: 0,
      sigmaDeg: null,
    });
    expect(of('VRB 2')).toMatchObject({ kind: 'variable', fromDeg: null, speedMps: 2, resultant: 0 });
    expect(of('none 4')).toMatchObject({ station: null, kind: 'missing', fromDeg: null, speedMps: null });
    expect(now([])).toMatchObject({ station: null, kind: 'missing', observedAtMs: null });
  });
});
