import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementLimit } from '#core/score/limit.ts';
import { CLASS_NAMES, scoreHours } from '#core/score/score-hours.ts';
import { columnOf, core } from '../../builders/forecast.ts';
import { limitOf } from '../../builders/limits.ts';

const classOf = (limit: ElementLimit, value: number | null): string =>
  CLASS_NAMES[scoreHours(columnOf([value]), limit).classes[0] ?? 9] ?? '?';
const wind = limitOf('windSpeed', { low: { hold: '3 mph' }, high: { hold: '12 mph', stop: '15 mph' } });
const mph = (n: number) => core('windSpeed', `${n} mph`);

describe('the class of an hour', () => {
  it.each([
    ['goes', [3.1, 7, 11.9], 'go'],
    ['holds', [0, 2.9, 12.1, 14.9], 'hold'],
    ['stops', [15.1, 40], 'stop'],
  ])('wind limits of 3, 12 and 15 mph: %s at %j mph', (_, values, expected) => {
    for (const value of values) expect(classOf(wind, mph(value)), `${value} mph`).toBe(expected);
  });

  it('a value exactly on a bound belongs to the worse class', () => {
    expect([3, 12, 15].map((n) => classOf(wind, mph(n)))).toEqual(['hold', 'hold', 'stop']);
  });

  it('unless the limit says inclusive', () => {
    expect([3, 12, 15].map((n) => classOf({ ...wind, inclusive: true }, mph(n)))).toEqual([
      'go',
      'go',
      'hold',
    ]);
  });

  it('no value is missing, never a class', () => {
    const scores = scoreHours(columnOf([null, mph(7)]), wind);
    expect(Array.from(scores.classes, (c) => CLASS_NAMES[c])).toEqual(['missing', 'go']);
    expect(scores.room[0]).toBeNaN();
  });

  it('stop comes before hold where bounds of both sides are broken', () => {
    const odd = limitOf('windSpeed', { low: { hold: '20 mph' }, high: { stop: '10 mph' } });
    expect(classOf(odd, mph(15))).toBe('stop');
  });
});

describe('a value on a bound but for the dust of unit conversion', () => {
  // NWS grids carry whole knots as km/h (recorded grids): 17 kt is 31.484 km/h; the dust of the API is about 1e-14.
  const knots = limitOf('windGust', { high: { hold: '17 kt' } });

  it.each([
    ['in km/h', 31.484 / 3.6],
    ['in km/h with the noise of a float', 31.483999999999995 / 3.6],
    ['in m/s', (17 * 1852) / 3600],
    ['by way of mph', core('windSpeed', `${(17 * 1852) / 1609.344} mph`)],
  ])('17 kt %s is on the bound of 17 kt: hold; inclusive: go', (_, value) => {
    expect(classOf(knots, value)).toBe('hold');
    expect(classOf({ ...knots, inclusive: true }, value)).toBe('go');
  });

  it('30 % and 1700 ft on their bounds too', () => {
    expect(classOf(limitOf('relativeHumidity', { low: { hold: '30 %' } }), 29.999999999999996)).toBe('hold');
    expect(classOf(limitOf('relativeHumidity', { low: { hold: '30 %' } }), 30.000000000000004)).toBe('hold');
    expect(classOf(limitOf('mixingHeight', { low: { hold: '1700 ft' } }), 1700 * 0.3048)).toBe('hold');
  });

  it('17 kt (19.56 mph) is under 20 mph and 18 kt (20.71 mph) over it: no bound is shifted by rounding', () => {
    const twenty = limitOf('windGust', { high: { hold: '20 mph' } });
    expect([17, 18].map((kt) => classOf(twenty, (kt * 1852) / 3600))).toEqual(['go', 'hold']);
  });

  it('a thousandth of a mile per hour is no dust', () => {
    expect([11.999, 12.001].map((n) => classOf({ ...wind, inclusive: true }, mph(n)))).toEqual([
      'go',
      'hold',
    ]);
  });
});

describe('the room of an hour', () => {
  it('is the distance to the nearest bound within, negative to the bound broken beyond', () => {
    const scores = scoreHours(columnOf([mph(4), mph(10), mph(13), mph(18), mph(1)]), wind);
    const told = Array.from(scores.room, (room, h) => [
      Math.round((room / 0.44704) * 1e6) / 1e6,
      scores.bound[h],
    ]);
    // Bound indices: 1 low hold, 2 high hold, 3 high stop.
    expect(told).toEqual([
      [1, 1],
      [2, 2],
      [-1, 2],
      [-3, 3],
      [-2, 1],
    ]);
  });

  it('is positive in go, and not positive in hold and stop, whatever the bounds', () => {
    const bound = fc.integer({ min: 0, max: 60 });
    fc.assert(
      fc.property(
        fc.array(bound, { minLength: 4, maxLength: 4 }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (cuts, value) => {
          const [a = 0, b = 0, c = 0, d = 0] = [...cuts].sort((x, y) => x - y);
          const limit = limitOf('windSpeed', {
            low: { stop: `${a} m/s`, hold: `${b} m/s` },
            high: { hold: `${c} m/s`, stop: `${d} m/s` },
          });
          const { classes, room } = scoreHours(columnOf([value]), limit);
          if (classes[0] === 0) expect(room[0]).toBeGreaterThan(0);
          else expect(room[0]).toBeLessThanOrEqual(1e-6);
        },
      ),
    );
  });
});

describe('what cannot be judged is missing, never go', () => {
  it.each<[string, ElementLimit, number]>([
    [
      'an infinite value under a low bound',
      limitOf('relativeHumidity', { low: { hold: '30 %' } }),
      Number.POSITIVE_INFINITY,
    ],
    ['a negative wind under a high bound', limitOf('windSpeed', { high: { hold: '12 mph' } }), -5],
    [
      'minus infinity under a high bound',
      limitOf('windSpeed', { high: { hold: '12 mph' } }),
      Number.NEGATIVE_INFINITY,
    ],
    ['a humidity of 1137 %', limitOf('relativeHumidity', { low: { hold: '30 %' } }), 1137],
    ['a limit without any bound', limitOf('windSpeed', {}), 5],
    [
      'a limit whose bound is no number',
      { ...wind, atLeast: null, atMost: { hold: { value: Number.NaN, unit: 'mph' }, stop: null } },
      5,
    ],
    [
      'a limit one of whose bounds is no number',
      { ...wind, atMost: { hold: { value: Number.NaN, unit: 'mph' }, stop: null } },
      30,
    ],
  ])('%s', (_, limit, value) => {
    expect(classOf(limit, value)).not.toBe('go');
  });
});
