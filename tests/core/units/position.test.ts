import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { degreesMinutes, parsePosition } from '#core/units/position.ts';

const near = (text: string, latDeg: number, lonDeg: number): void => {
  const found = parsePosition(text);
  expect(found, text).not.toBeNull();
  expect(found?.latDeg, text).toBeCloseTo(latDeg, 6);
  expect(found?.lonDeg, text).toBeCloseTo(lonDeg, 6);
};

/** Evenly over the span: `fc.double` gives mostly what is next to nothing. */
const evenly = (min: number, max: number) =>
  fc.integer({ min: Math.ceil(min * 1e5), max: Math.floor(max * 1e5) }).map((n) => n / 1e5);

describe('a position as somebody types it', () => {
  // The Capitol in three notations: 38.889722, -77.008889 is 38° 53' 23" N, 77° 0' 32" W (from memory).
  it.each([
    '38.889722,-77.008889',
    '38.889722 -77.008889',
    '38.889722N 77.008889W',
    'N 38.889722, W 77.008889',
    '38 53.38333 N 77 00.53333 W',
    '38°53.38333′N, 77°00.53333′O',
    '38°53\'23"N 77°0\'32"W',
    '38-53-23N 077-00-32W',
    'W 77 0 32 N 38 53 23',
    '77 0 32 W, 38 53 23 N',
    '38 53 23 -77 0 32',
  ])('%s', (text) => {
    const found = parsePosition(text);
    expect(found?.latDeg).toBeCloseTo(38.889722, 5);
    expect(found?.lonDeg).toBeCloseTo(-77.008889, 5);
  });

  it('a minus before degrees and minutes makes all of it negative', () => near('-0 30, 10', -0.5, 10));

  it.each([
    '',
    'county road',
    '38.9',
    '91, 0',
    '0, 181',
    '38 60 N, 77 W',
    '38.5 20 N, 77 W',
    '38N 77N',
    '38N, 77',
    '38, 77, 5',
    '38 53 77',
    '-38 N, 77 W',
    'N38N, W77',
    'NaN, NaN',
    '1e1, 2',
    '38,9, -77,0',
  ])('"%s" is none, and nothing is guessed', (text) => {
    expect(parsePosition(text)).toBeNull();
  });

  it('what is written in degrees and minutes is read back to two metres', () => {
    fc.assert(
      fc.property(evenly(-90, 90), evenly(-180, 180), (latDeg, lonDeg) => {
        const [lat, lon] = [degreesMinutes(latDeg), degreesMinutes(lonDeg)];
        const text = `${lat.degrees} ${lat.minutes.toFixed(3)} ${lat.isNegative ? 'S' : 'N'} ${lon.degrees} ${lon.minutes.toFixed(3)} ${lon.isNegative ? 'W' : 'E'}`;
        const back = parsePosition(text);
        expect(Math.abs((back?.latDeg ?? 999) - latDeg), text).toBeLessThan(1e-5);
        expect(Math.abs((back?.lonDeg ?? 999) - lonDeg), text).toBeLessThan(1e-5);
      }),
      { seed: 20_261_130 },
    );
  });

  it('never has sixty minutes', () => {
    expect(degreesMinutes(38.9999999)).toEqual({ degrees: 39, minutes: 0, isNegative: false });
    expect(degreesMinutes(-0.0000001)).toEqual({ degrees: 0, minutes: 0, isNegative: false });
  });
});
