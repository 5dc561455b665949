import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { smokeTurned } from '#core/watch/smoke-turned.ts';
import { EAST_SCHOOL, siteWith } from '../../builders/site.ts';
import { AIRPORT, clock, every, ON_SITE, PERSON, seen, the } from '../../builders/watch.ts';
import { type WatchText, watchContextOf } from '../../builders/watch-input.ts';

// The school lies from 80 to 110 degrees, widened by 20: smoke reaches it for winds from 240 to 310, is clear of it only
// below 225 and above 325, and below 1.5 m/s may go anywhere.
const SITE = siteWith({ protected: [EAST_SCHOOL] });
const smoke = (observations: readonly Observation[], text: WatchText = {}) =>
  the(
    smokeTurned(watchContextOf({ site: SITE, observations, ...text })),
    'smoke-turned-to-place',
    'east school',
  );
const steady = (wind: string) => every(5, '11:00', '13:00', wind);
/** One wind until 12:05, from then on another. */
const then = (first: string, second: string, from = '12:05') => [
  ...every(5, '11:00', '13:00', first).filter((o) => o.observedAtMs < clock(from)),
  ...every(5, from, '13:00', second),
];

describe('smoke towards a protected place', () => {
  it.each([
    ['240 5', 'true'],
    ['310 5', 'true'],
    ['239 5', 'false'],
    ['311 5', 'false'],
    ['180 5', 'false'],
    ['270 0.5', 'true'], // however weak
    ['180 1.4', 'unknown'], // too light to be trusted
    ['180 1.5', 'false'],
    ['calm', 'unknown'],
    ['VRB 1', 'unknown'],
    ['VRB 5', 'unknown'],
    ['none', 'unknown'],
    ['none 5', 'unknown'],
  ])('by an observed wind %s is %s', (wind, truth) => {
    expect(smoke(steady(wind)).truth).toBe(truth);
  });

  it('is the verdict of the place while true, and a hold while nobody can say', () => {
    expect(smoke(steady('270 5'))).toMatchObject({
      verdict: 'stop',
      basis: 'observed',
      figures: {
        place: 'east school',
        windFromDeg: expect.closeTo(270, 6),
        windSpeedMps: 5,
        station: 'mast',
      },
    });
    expect(smoke(steady('calm')).verdict).toBe('hold');
    const onlyHold = siteWith({ protected: [{ ...EAST_SCHOOL, verdict: 'hold' }] });
    expect(smoke(steady('270 5'), { site: onlyHold }).verdict).toBe('hold');
  });

  it('is true at the first observation, and over only 15° outside and after a quarter of an hour', () => {
    expect(smoke(then('180 5', '270 5', '13:00')).truth).toBe('true');
    expect(smoke(then('270 5', '226 5')).truth).toBe('true');
    expect(smoke(then('270 5', '225 5')).truth).toBe('true'); // on the very edge
    expect(smoke(then('270 5', '224.9 5')).truth).toBe('false');
    expect(smoke(then('270 5', '224.9 5', '12:50')).truth).toBe('true');
  });

  it('that went silent, calm or blank meanwhile is unknown with the verdict of the place, never over', () => {
    for (const after of ['calm', 'VRB 5', '180 1']) {
      expect(smoke(then('270 5', after)), after).toMatchObject({ truth: 'unknown', verdict: 'stop' });
    }
    expect(smoke(every(5, '11:00', '12:40', '270 5'))).toMatchObject({ truth: 'unknown', verdict: 'stop' });
    expect(smoke(then('270 5', 'none'))).toMatchObject({ truth: 'unknown', verdict: 'stop' });
  });

  it('of a place beyond reach is not judged', () => {
    const far = siteWith({ protected: [{ ...EAST_SCHOOL, distanceM: 9000 }] });
    expect(smokeTurned(watchContextOf({ site: far, observations: steady('270 5') }))).toEqual([]);
  });

  it('over north: a place from 340 to 20 is reached by a wind from 175 and from 185', () => {
    const north = siteWith({ protected: [{ ...EAST_SCHOOL, fromBearingDeg: 340, toBearingDeg: 20 }] });
    expect(smoke(steady('175 5'), { site: north }).truth).toBe('true');
    expect(smoke(steady('185 5'), { site: north }).truth).toBe('true');
    expect(smoke(steady('270 5'), { site: north }).truth).toBe('false');
  });

  it('a mean over north is north, not south (350 and 10)', () => {
    const south = siteWith({ protected: [{ ...EAST_SCHOOL, fromBearingDeg: 350, toBearingDeg: 10 }] });
    const swings = every(1, '11:00', '13:00', (m) => (m % 2 ? '350 5' : '10 5'));
    expect(smoke(swings, { site: south }).truth).toBe('false');
  });
});

describe('more than one source', () => {
  const all = { stations: [ON_SITE, PERSON, AIRPORT] };
  const at = (station: string, when: string, wind: string, more: Partial<Observation> = {}) =>
    seen(when, wind, { station, ...more });

  it('the chosen one decides, and an airport beside it does not', () => {
    expect(smoke([...steady('180 5'), at('KXYZ', '12:53', '270 5')], all).truth).toBe('false');
  });

  it('whoever stands at the pit makes it worse, never better', () => {
    expect(smoke([...steady('180 5'), at('foreman', '12:57', '270 3')], all).truth).toBe('true');
    expect(smoke([...steady('270 5'), at('foreman', '12:57', '180 3')], all).truth).toBe('true');
  });

  it('a doubted word on site makes it worse, and never better', () => {
    const doubted = (before: string, wind: string) => [
      ...every(5, '11:00', '12:55', before),
      at('mast', '13:00', wind, { quality: 'doubtful' }),
    ];
    const airport = at('KXYZ', '12:53', '180 5');
    expect(smoke([...doubted('180 5', '270 5'), airport], all).truth).toBe('true');
    expect(smoke([...doubted('180 5', '180 5'), airport], all).truth).toBe('unknown');
    // Where all its fresh words are doubted the next speaks for the site, and what it says itself still makes it worse.
    const all270 = every(5, '11:00', '13:00', '270 5', { quality: 'doubtful' });
    expect(smoke([...all270, airport], all).truth).toBe('true');
  });

  it('the next speaks where the first has gone silent', () => {
    expect(smoke([...every(5, '10:00', '10:30', '180 5'), at('KXYZ', '12:53', '270 5')], all)).toMatchObject({
      truth: 'true',
      figures: { station: 'KXYZ' },
    });
  });
});
