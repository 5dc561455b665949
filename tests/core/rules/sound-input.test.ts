import { describe, expect, it } from 'vitest';
import { soundInput } from '#core/rules/sound-input.ts';
import type { Site } from '#core/site/site.ts';
import { one } from '../../builders/findings.ts';
import { contextOf, inputOf } from '../../builders/plan.ts';
import { EAST_SCHOOL, PLAIN_SITE, siteWith } from '../../builders/site.ts';

const foundFor = (changes: Partial<Site>, nowMs?: number) => {
  const input = inputOf({ site: siteWith(changes) });
  return soundInput(contextOf(nowMs === undefined ? input : { ...input, nowMs }));
};

describe('what is judged by', () => {
  it('in order says nothing', () => {
    expect(
      foundFor({ protected: [EAST_SCHOOL], daylight: { lightUpAfterSunriseMin: 0, outBeforeSunsetMin: 0 } }),
    ).toEqual([]);
  });

  it.each<[string, Partial<Site>, string]>([
    ['a burn-down', { burn: { ...PLAIN_SITE.burn, burnDownMin: Number.NaN } }, 'burnDownMin'],
    ['a reach', { smoke: { ...PLAIN_SITE.smoke, reachM: Number.NaN } }, 'reachM'],
    [
      'an age',
      { quality: { ...PLAIN_SITE.quality, holdAfterMin: Number.POSITIVE_INFINITY } },
      'holdAfterMin',
    ],
    [
      'a margin of daylight',
      { daylight: { lightUpAfterSunriseMin: Number.NaN, outBeforeSunsetMin: 60 } },
      'lightUpAfterSunriseMin',
    ],
    ['a latitude', { place: { latDeg: Number.NaN, lonDeg: -90 } }, 'latDeg'],
    ['a distance', { protected: [{ ...EAST_SCHOOL, distanceM: Number.NaN }] }, 'distance of east school'],
    ['a margin', { protected: [{ ...EAST_SCHOOL, marginDeg: Number.NaN }] }, 'bearing of east school'],
  ])('%s that is no number holds everything, and is named', (_, changes, name) => {
    const found = one(foundFor(changes), 'input-unusable');
    expect(found).toMatchObject({ verdict: 'hold', unknown: true });
    expect(found.figures.what).toEqual([name]);
  });

  it('a moment that is no number too', () => {
    expect(one(foundFor({}, Number.NaN), 'input-unusable').figures.what).toEqual(['now']);
  });
});
