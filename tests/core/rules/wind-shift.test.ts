import { describe, expect, it } from 'vitest';
import { windShift } from '#core/rules/wind-shift.ts';
import type { Site } from '#core/site/site.ts';
import { ofCode, one, told } from '../../builders/findings.ts';
import type { Sketch } from '../../builders/forecast.ts';
import { contextOf, inputOf } from '../../builders/plan.ts';
import { EAST_SCHOOL, PLAIN_SITE, siteWith } from '../../builders/site.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const NINE = at(`${DATE} 09:00`);
const HOUR = 3_600_000;

/** Directions of the hours from 09:00 on; the first stands before, the last after. */
function shifts(directions: readonly (number | null)[], changes: Partial<Site> = {}, more: Sketch = {}) {
  const windDirection = (ms: number) =>
    directions[Math.min(directions.length - 1, Math.max(0, Math.round((ms - NINE) / HOUR)))] ?? null;
  return windShift(contextOf(inputOf({ site: siteWith(changes), weather: { windDirection, ...more } })));
}
const settings = (changes: Partial<Site['windShift']>): Partial<Site> => ({
  windShift: { ...PLAIN_SITE.windShift, ...changes },
});

// AFMAN 15-111, 7.4.5 calls 45 degrees a shift (second pass 3b); the hour step and the lower speed are ours.
describe('a turn of the wind', () => {
  it.each([
    ['of 45 from one hour to the next is one', [180, 225], 1],
    ['of 44 is none', [180, 224], 0],
    ['over north is counted the short way', [340, 30], 1],
    ['over north of 40 is none', [340, 20], 0],
    ['of 25 and 25 within two hours is one', [180, 205, 230], 1],
    ['of 15 an hour is none', [180, 195, 210, 225, 240], 0],
    ['there and back is one', [180, 240, 180], 1],
    ['whose middle hour is missing is still seen', [180, null, 240], 1],
    ['into a missing hour is none', [180, null], 0],
  ])('%s', (_, directions, count) => {
    expect(shifts(directions).filter((f) => f.toMs > NINE - 24 * HOUR).length).toBe(count);
  });

  it('with the noise of the API is still of 45 (recorded grids)', () => {
    expect(shifts([30, 74.99999999999999]).length).toBe(1);
    expect(shifts([239.99999999999997, 285]).length).toBe(1);
  });

  it('of two hours does not count where the site looks at one', () => {
    expect(shifts([180, 205, 230], settings({ withinHours: 1 }))).toEqual([]);
  });

  it('in a wind too weak on either side is none (weather-gov/api issue 138)', () => {
    expect(shifts([180, 270], {}, { windSpeed: 2 })).toEqual([]);
    const dying = (ms: number) => (ms <= NINE ? 5 : 1);
    expect(shifts([180, 270], {}, { windSpeed: dying })).toEqual([]);
  });

  it('as large as the site says', () => {
    expect(shifts([180, 225], settings({ atLeastDeg: 60 }))).toEqual([]);
    expect(shifts([180, 240], settings({ atLeastDeg: 60 })).length).toBe(1);
  });

  it('is advice with both directions and its time', () => {
    expect(one(shifts([180, 240]), 'wind-shift')).toMatchObject({
      verdict: 'go',
      fromMs: NINE,
      toMs: NINE + 2 * HOUR,
      figures: { fromDeg: 180, toDeg: 240, turnDeg: 60, atMs: NINE + HOUR, place: null },
    });
  });

  it('does not fail at the last hour of the forecast', () => {
    const input = inputOf({ weather: { windDirection: (_, h) => (h % 2 === 0 ? 90 : 270) } });
    expect(windShift(contextOf(input)).length).toBeGreaterThan(0);
  });
});

describe('a turn that brings smoke to a protected place', () => {
  const withSchool = { protected: [EAST_SCHOOL] };

  it('is a hold from burn-down and cover before the smoke comes, to the end of that hour', () => {
    const found = shifts([180, 270], withSchool);
    expect(told(found, DATE)).toEqual(['go wind-shift 09:00-11:00', 'hold wind-shift 08:30-11:00']);
    expect(ofCode(found, 'wind-shift')[1]?.figures.place).toBe('east school');
  });

  it('is advice alone where the smoke goes past it', () => {
    expect(shifts([180, 90], withSchool).map((f) => f.verdict)).toEqual(['go']);
  });

  it('is a hold where the smoke passes over it on the way', () => {
    expect(shifts([180, 230, 280, 330], withSchool).map((f) => f.verdict)).toEqual(['go', 'hold']);
  });

  it('is not judged for a place beyond reach', () => {
    expect(
      shifts([180, 270], { protected: [{ ...EAST_SCHOOL, distanceM: 9000 }] }).map((f) => f.verdict),
    ).toEqual(['go']);
  });
});
