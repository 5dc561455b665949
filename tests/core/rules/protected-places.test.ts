import { describe, expect, it } from 'vitest';
import { makePlan } from '#core/plan/make-plan.ts';
import { protectedPlaces } from '#core/rules/protected-places.ts';
import type { ProtectedPlace } from '#core/site/site.ts';
import { one, told } from '../../builders/findings.ts';
import { byClock, core } from '../../builders/forecast.ts';
import { contextOf, inputOf, verdictAt } from '../../builders/plan.ts';
import { EAST_SCHOOL, siteWith } from '../../builders/site.ts';
import { at } from '../../builders/time.ts';

const DATE = '2026-03-02';
const NOON = at(`${DATE} 12:00`);
const knots = (n: number) => core('windSpeed', `${n} kt`);

function inputFrom(windDirection: number | null, place: Partial<ProtectedPlace> = {}, windSpeed = knots(6)) {
  const site = siteWith({
    protected: [{ ...EAST_SCHOOL, ...place }],
    smoke: { reachM: 3000, unsureBelowMps: knots(3) },
  });
  return inputOf({ site, weather: { windDirection, windSpeed } });
}
const codesFrom = (...given: Parameters<typeof inputFrom>) =>
  protectedPlaces(contextOf(inputFrom(...given))).map((f) => f.code);

// The school lies from 80 to 110 degrees, widened by 20: smoke reaches it for winds from 240 to 310.
describe('smoke towards a protected place', () => {
  it.each([
    [239, false],
    [240, true],
    [239.99999999999997, true], // 240 with the noise of the API (recorded grids)
    [270, true],
    [310, true],
    [311, false],
    [90, false], // the wind comes from the school
  ])('of a wind from %d reaches it: %s', (from, reaches) => {
    expect(codesFrom(from).includes('smoke-reaches')).toBe(reaches);
  });

  it('is the verdict of the place, with where the smoke goes and how far', () => {
    const findings = protectedPlaces(contextOf(inputFrom(270, { verdict: 'hold' })));
    expect(one(findings, 'smoke-reaches')).toMatchObject({
      verdict: 'hold',
      figures: { place: 'east school', windFromDeg: 270, smokeToDeg: 90, distanceM: 800 },
    });
  });

  it('reaches it however weak the wind, and is unsure beside', () => {
    expect(codesFrom(270, {}, knots(1))).toEqual(['smoke-reaches', 'smoke-unsure']);
  });

  it('of a place beyond reach is not judged, at the reach it is', () => {
    expect(codesFrom(270, { distanceM: 3000.1 })).toEqual([]);
    expect(codesFrom(270, { distanceM: 3000 })).toEqual(['smoke-reaches']);
  });

  it('that comes over north is found: place from 340 to 20, wind from 175', () => {
    expect(codesFrom(175, { fromBearingDeg: 340, toBearingDeg: 20, marginDeg: 0 })).toEqual([
      'smoke-reaches',
    ]);
    expect(codesFrom(270, { fromBearingDeg: 340, toBearingDeg: 20, marginDeg: 0 })).toEqual([]);
  });

  it('of a place all round the pit is reached by every wind', () => {
    for (let from = 0; from <= 360; from += 30) {
      expect(
        codesFrom(from, { fromBearingDeg: 0, toBearingDeg: 360, marginDeg: 0 }),
        `wind from ${from}`,
      ).toEqual(['smoke-reaches']);
    }
  });

  it('comes in runs of hours, one finding for each', () => {
    const windDirection = byClock('windDirection', {
      '00:00': '180 deg',
      '13:00': '270 deg',
      '15:00': '180 deg',
    });
    const input = inputOf({ site: siteWith({ protected: [EAST_SCHOOL] }), weather: { windDirection } });
    expect(told(protectedPlaces(contextOf(input)), DATE)).toEqual(['stop smoke-reaches 13:00-15:00']);
  });

  it('holds the charging for burn-down and cover before, even where the place only holds: a burning pit smokes', () => {
    const windDirection = byClock('windDirection', { '00:00': '180 deg', '13:00': '270 deg' });
    const site = siteWith({ protected: [{ ...EAST_SCHOOL, verdict: 'hold' }] });
    const plan = makePlan(inputOf({ site, weather: { windDirection } }));
    expect(
      [at(`${DATE} 11:29`), at(`${DATE} 11:30`), NOON, at(`${DATE} 13:00`)].map((ms) => verdictAt(plan, ms)),
    ).toEqual(['go', 'hold', 'hold', 'hold']);
  });
});

describe('a wind too light to say where the smoke goes', () => {
  it.each([
    ['2 kt', knots(2), ['smoke-unsure']],
    ['calm', 0, ['smoke-unsure']],
    ['3 kt, as km/h with its dust', 5.556 / 3.6, []],
    ['3 kt less the noise of a float', knots(3) - 1e-15, []],
    ['4 kt', knots(4), []],
  ])('%s', (_, speed, codes) => {
    expect(codesFrom(180, {}, speed)).toEqual(codes);
  });

  it('names every place that it may reach', () => {
    const site = siteWith({
      protected: [EAST_SCHOOL, { ...EAST_SCHOOL, name: 'road' }],
      smoke: { reachM: 3000, unsureBelowMps: knots(3) },
    });
    const findings = protectedPlaces(contextOf(inputOf({ site, weather: { windSpeed: 1 } })));
    expect(one(findings, 'smoke-unsure').figures.places).toEqual(['east school', 'road']);
  });

  it('matters only where there is something to protect', () => {
    expect(protectedPlaces(contextOf(inputOf({ weather: { windSpeed: 0 } })))).toEqual([]);
  });
});
