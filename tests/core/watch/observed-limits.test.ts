import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { observedLimits } from '#core/watch/observed-limits.ts';
import { core } from '../../builders/forecast.ts';
import { limitOf, limitSet } from '../../builders/limits.ts';
import { AIRPORT, clock, every, ON_SITE, PERSON, seen, the } from '../../builders/watch.ts';
import { type WatchText, wandering, watchContextOf } from '../../builders/watch-input.ts';

const mph = (n: number) => core('windSpeed', `${n} mph`);
// Wind 3 to 12 mph, stop at 15; gust 20, stop at 25; humidity from 30 %, stop at 20. Common practice, no source.
const LIMITS = limitSet([
  limitOf('windSpeed', { low: { hold: '3 mph' }, high: { hold: '12 mph', stop: '15 mph' } }),
  limitOf('windGust', { high: { hold: '20 mph', stop: '25 mph' }, source: 'county' }),
  limitOf('relativeHumidity', { low: { hold: '30 %', stop: '20 %' } }),
  limitOf('mixingHeight', { low: { hold: '1700 ft' } }),
]);
const GOOD = { relativeHumidityPct: 45, gustMps: mph(14) };
type Changes = Readonly<Record<string, Partial<Observation> & { readonly wind?: Observation['wind'] }>>;

/** A good morning at the mast, with changes at some clock times. */
const morning = (changes: Changes = {}, to = '13:00') =>
  every(5, '11:00', to, wandering(180, mph(7)), GOOD).map((o) => {
    const change = Object.entries(changes).find(([when]) => clock(when) === o.observedAtMs)?.[1];
    return { ...o, ...change };
  });
const limits = (observations: readonly Observation[], text: WatchText = {}) =>
  observedLimits(watchContextOf({ limits: LIMITS, observations, ...text }));
const judged = (subject: string, observations: readonly Observation[], text: WatchText = {}) =>
  the(limits(observations, text), 'observed-beyond-limit', subject);
const gustAt = (changes: Readonly<Record<string, number>>, text: WatchText = {}) =>
  judged(
    'windGust',
    morning(Object.fromEntries(Object.entries(changes).map(([when, v]) => [when, { gustMps: mph(v) }]))),
    text,
  );

describe('what is observed against the limits', () => {
  it('is judged for every element that can be observed, and all is well in good weather', () => {
    expect(limits(morning()).map((c) => [c.subject, c.truth])).toEqual([
      ['windSpeed', 'false'],
      ['windGust', 'false'],
      ['relativeHumidity', 'false'],
    ]);
  });

  it.each([
    [19.9, 'false', 'hold'],
    [20, 'true', 'hold'], // on the bound belongs to the worse class
    [24.9, 'true', 'hold'],
    [25, 'true', 'stop'],
    [60, 'true', 'stop'],
  ])('a gust of %d mph is beyond: %s, %s', (value, truth, verdict) => {
    expect(gustAt({ '13:00': value })).toMatchObject({ truth, verdict });
  });

  it('a value on an inclusive bound is within it', () => {
    const inclusive = limitSet([limitOf('windGust', { high: { hold: '20 mph' }, inclusive: true })]);
    expect(gustAt({ '13:00': 20 }, { limits: inclusive }).truth).toBe('false');
    expect(gustAt({ '13:00': 20.1 }, { limits: inclusive }).truth).toBe('true');
  });

  it.each([
    [30.1, 'false', 'hold'],
    [30, 'true', 'hold'],
    [20, 'true', 'stop'],
  ])('a humidity of %d %% is beyond: %s, %s', (value, truth, verdict) => {
    const observations = morning({ '13:00': { relativeHumidityPct: value } });
    expect(judged('relativeHumidity', observations)).toMatchObject({ truth, verdict });
  });

  it('wind too weak is beyond as wind too strong is', () => {
    const with13 = (wind: Observation['wind']) => judged('windSpeed', morning({ '13:00': { wind } }));
    expect(with13({ kind: 'blowing', fromDeg: 180, speedMps: mph(2) })).toMatchObject({
      truth: 'true',
      figures: { side: 'atLeast', bound: mph(3) },
    });
    expect(with13({ kind: 'calm' }).truth).toBe('true');
    expect(with13({ kind: 'blowing', fromDeg: 180, speedMps: mph(16) })).toMatchObject({
      truth: 'true',
      verdict: 'stop',
    });
  });

  it('tells the value, the bound, whose bound, when and by whom', () => {
    expect(gustAt({ '13:00': 26 })).toMatchObject({
      verdict: 'stop',
      basis: 'observed',
      asOfMs: clock('13:00'),
      holdsForMs: 0,
      figures: {
        element: 'windGust',
        value: mph(26),
        bound: mph(25),
        boundUnit: 'mph',
        side: 'atMost',
        source: 'county',
        station: 'mast',
        atMs: clock('13:00'),
      },
    });
  });

  it('a stop is told at once, a hold when it has lasted', () => {
    expect(gustAt({ '13:00': 26 }).holdsForMs).toBe(0);
    expect(gustAt({ '13:00': 21 }).holdsForMs).toBe(120_000);
  });

  it('two limits on one element: the one that is broken counts', () => {
    const two = limitSet([
      limitOf('windGust', { high: { hold: '40 mph' }, source: 'county' }),
      limitOf('windGust', { high: { hold: '18 mph' }, source: 'our rule' }),
    ]);
    expect(gustAt({ '13:00': 19 }, { limits: two })).toMatchObject({
      truth: 'true',
      figures: { source: 'our rule' },
    });
  });

  it('a limit without a bound, or with one that is no number, is never met', () => {
    const none = limitSet([limitOf('windGust', {})]);
    expect(gustAt({}, { limits: none }).truth).toBe('unknown');
    const broken = limitOf('windGust', { high: { hold: '20 mph' } });
    const bound = { value: Number.NaN, unit: 'mph' };
    const absurd = limitSet([{ ...broken, atMost: { hold: bound, stop: null } }]);
    expect(gustAt({}, { limits: absurd }).truth).toBe('unknown');
  });

  it('a limit for the night does not count by day', () => {
    const byNight = limitSet([limitOf('windGust', { high: { hold: '15 mph' }, when: 'night' })]);
    const byDay = limitSet([limitOf('windGust', { high: { hold: '15 mph' }, when: 'day' })]);
    expect(limits(morning({ '13:00': { gustMps: mph(16) } }), { limits: byNight })).toEqual([]);
    expect(gustAt({ '13:00': 16 }, { limits: byDay }).truth).toBe('true');
  });
});

describe('worse at once, better slowly', () => {
  it('is over only a tenth within the bound and after a quarter of an hour', () => {
    const from = (when: string, value: number) =>
      morning().map((o) => {
        if (o.observedAtMs < clock('12:00')) return o;
        return { ...o, gustMps: mph(o.observedAtMs < clock(when) ? 21 : value) };
      });
    expect(judged('windGust', from('12:10', 19)).truth).toBe('true');
    expect(judged('windGust', from('12:10', 18)).truth).toBe('false');
    expect(judged('windGust', from('12:50', 14)).truth).toBe('true');
    expect(judged('windGust', from('12:45', 14)).truth).toBe('false');
  });

  it('each bound is over by itself: a stop that has eased is a hold', () => {
    const eased = morning().map((o) => ({ ...o, gustMps: mph(o.observedAtMs <= clock('12:00') ? 26 : 21) }));
    expect(judged('windGust', eased)).toMatchObject({ truth: 'true', verdict: 'hold' });
    const soon = morning().map((o) => ({ ...o, gustMps: mph(o.observedAtMs <= clock('12:50') ? 26 : 21) }));
    expect(judged('windGust', soon)).toMatchObject({ truth: 'true', verdict: 'stop' });
  });

  it('±1 around a limit for three hours is one turn, however it is seen', () => {
    const flapping = every(1, '10:00', '13:00', wandering(180, mph(7)), (m) => ({
      gustMps: mph(m % 2 ? 21 : 19),
    }));
    const truths: string[] = [];
    for (let minute = 0; minute <= 180; minute += 5) {
      const now = new Intl.DateTimeFormat('en-GB', {
        timeZone: 'UTC',
        hour: '2-digit',
        minute: '2-digit',
      }).format(minute * 60_000 + 10 * 3_600_000);
      truths.push(
        judged(
          'windGust',
          flapping.filter((o) => o.observedAtMs <= clock(now)),
          { now },
        ).truth,
      );
    }
    expect(truths.filter((truth, i) => truth !== (truths[i - 1] ?? 'false')).length).toBe(1);
  });
});

describe('what cannot be said', () => {
  it('missing is unknown and never over', () => {
    const silent = morning({ '12:30': { gustMps: mph(26) } }, '12:40');
    expect(judged('windGust', silent)).toMatchObject({ truth: 'unknown', verdict: 'stop' });
    expect(judged('windGust', morning({}, '12:40'))).toMatchObject({ truth: 'unknown', verdict: 'hold' });
    const blank = morning().map((o) => (o.observedAtMs > clock('12:40') ? { ...o, gustMps: null } : o));
    expect(judged('windGust', blank)).toMatchObject({ truth: 'unknown', verdict: 'hold' });
  });

  it('a blank gust is no gust that is beyond or within, unless the mean itself is beyond', () => {
    expect(judged('windGust', morning({ '13:00': { gustMps: null } })).truth).toBe('false');
    const strong = morning({
      '13:00': { gustMps: null, wind: { kind: 'blowing', fromDeg: 180, speedMps: mph(21) } },
    });
    expect(judged('windGust', strong).truth).toBe('true');
  });

  it('what nobody here tells is left to the forecast', () => {
    const dry = morning().map((o) => ({ ...o, relativeHumidityPct: null }));
    expect(judged('relativeHumidity', dry)).toMatchObject({ truth: 'unknown', verdict: 'go' });
    expect(judged('relativeHumidity', dry, { settings: { unobserved: 'hold' } }).verdict).toBe('hold');
  });

  it('a hand-held reading that may be on either side of the bound holds, since nobody can say', () => {
    const person: WatchText = { stations: [PERSON] };
    const read = (n: number) => [seen('12:50', `180 ${mph(n)}`, { station: 'foreman', windAveragingS: 120 })];
    // At 2 m over roughness 0.1: up to 1.54 times as much at 10 m; hold at 12.
    expect(judged('windSpeed', read(7), person).truth).toBe('false');
    expect(judged('windSpeed', read(9), person)).toMatchObject({ truth: 'unknown', verdict: 'hold' });
    expect(judged('windSpeed', read(12), person).truth).toBe('true');
  });

  it('a remote fire-weather station (20 ft, ten minutes) is compared as what it may mean', () => {
    const remote = { ...AIRPORT, windHeightM: 6.096, windAveragingS: 600 };
    const read = (n: number) => [seen('12:50', `180 ${mph(n)}`, { station: 'KXYZ' })];
    // Up to 1.12 × 1.07 times as much; hold at 12.
    expect(judged('windSpeed', read(9), { stations: [remote] }).truth).toBe('false');
    expect(judged('windSpeed', read(11), { stations: [remote] }).truth).toBe('unknown');
    expect(judged('windSpeed', read(12), { stations: [remote] }).truth).toBe('true');
  });
});

describe('more than one source', () => {
  const all: WatchText = { stations: [ON_SITE, PERSON, AIRPORT] };
  const person = (when: string, gustMph: number) =>
    seen(when, `180 ${mph(8)}`, { station: 'foreman', gustMps: mph(gustMph) });
  const airport = (when: string, gustMph: number, more: Partial<Observation> = {}) =>
    seen(when, `180 ${mph(8)}`, { station: 'KXYZ', gustMps: mph(gustMph), ...more });

  it('whoever is at the pit makes it worse, never better', () => {
    expect(judged('windGust', [...morning(), person('12:55', 26)], all)).toMatchObject({
      truth: 'true',
      verdict: 'stop',
      figures: { station: 'foreman', value: mph(26) },
    });
    const strong = morning({ '13:00': { gustMps: mph(26) } });
    expect(judged('windGust', [...strong, person('12:55', 5)], all).truth).toBe('true');
  });

  it('an airport beside a mast that is well does not count', () => {
    expect(judged('windGust', [...morning(), airport('12:53', 40)], all).truth).toBe('false');
  });

  it('a doubted reading makes it worse, and never better', () => {
    const doubted = (gustMph: number) => morning({ '13:00': { gustMps: mph(gustMph), quality: 'doubtful' } });
    expect(judged('windGust', [...doubted(26), airport('12:53', 10)], all).truth).toBe('true');
    expect(judged('windGust', doubted(10), all)).toMatchObject({ truth: 'unknown', verdict: 'hold' });
  });

  it('another station is asked for what the first does not tell', () => {
    const dry = morning().map((o) => ({ ...o, relativeHumidityPct: null }));
    const damp = airport('12:53', 10, { relativeHumidityPct: 25 });
    expect(judged('relativeHumidity', [...dry, damp], all)).toMatchObject({
      truth: 'true',
      figures: { station: 'KXYZ', value: 25 },
    });
  });

  it('what came out of order and long after raises nothing, and is no reason to think it over', () => {
    const late = { gustMps: mph(30), receivedAtMs: clock('13:00:40') };
    expect(judged('windGust', morning({ '12:30': late })).truth).toBe('false');
    expect(judged('windGust', morning({ '12:50': late })).truth).toBe('true');
  });
});
