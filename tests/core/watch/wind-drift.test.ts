import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import { unsteady } from '#core/watch/unsteady.ts';
import { windDrift } from '#core/watch/wind-drift.ts';
import { AIRPORT, clock, every, ON_SITE, seen, the } from '../../builders/watch.ts';
import { OPEN_BURN, type WatchText, watchContextOf } from '../../builders/watch-input.ts';

const drifts = (observations: readonly Observation[], text: WatchText = {}) =>
  windDrift(watchContextOf({ observations, ...text }));
const drift = (observations: readonly Observation[], text: WatchText = {}) =>
  the(drifts(observations, text), 'wind-drifted');
const steady = (wind: string) => every(5, '11:00', '13:00', wind);

describe('a wind far from the one that the crew was briefed on', () => {
  // 60° from the briefed direction is ours.
  it.each([
    ['240 5', 'true'],
    ['239 5', 'false'],
    ['120 5', 'true'],
    ['360 5', 'true'],
    ['180 5', 'false'],
    ['360 1', 'false'], // too light to carry anything anywhere
    ['calm', 'false'],
    ['VRB 5', 'unknown'],
    ['none', 'unknown'],
  ])('briefed on 180, observed %s: %s', (wind, truth) => {
    expect(drift(steady(wind)).truth).toBe(truth);
  });

  it('is a hold, however slowly it went there', () => {
    const slow = every(5, '10:00', '13:00', (m) => `${180 + m / 3} 5`);
    expect(drift(slow)).toMatchObject({
      truth: 'true',
      verdict: 'hold',
      figures: { wasFromDeg: 180, windFromDeg: expect.closeTo(240, 6) },
    });
  });

  it('is over within 45° and after a quarter of an hour', () => {
    const back = (deg: number, from: string) => [
      ...every(5, '11:00', '13:00', '250 5').filter((o) => o.observedAtMs < clock(from)),
      ...every(5, from, '13:00', `${deg} 5`),
    ];
    expect(drift(back(226, '12:05')).truth).toBe('true');
    expect(drift(back(225, '12:05')).truth).toBe('false');
    expect(drift(back(225, '12:50')).truth).toBe('true');
  });

  it('goes by the direction that was recorded with the burn', () => {
    expect(drift(steady('270 5'), { burn: { ...OPEN_BURN, briefedFromDeg: 270 } }).truth).toBe('false');
    expect(drift(steady('180 5'), { burn: { ...OPEN_BURN, briefedFromDeg: 270 } }).truth).toBe('true');
  });

  describe('that has acknowledged another since', () => {
    /** From 180 to 270 at noon; acknowledged at 12:10 as told of the reading of noon. */
    const turned = [...every(5, '11:00', '11:55', '180 5'), ...every(5, '12:00', '13:00', '270 5')];
    const rebriefed = {
      id: 'answer 1',
      burn: OPEN_BURN.id,
      fromDeg: 270,
      observedAtMs: clock('12:00'),
      by: 'ana',
      atMs: clock('12:10'),
      message: 'm1',
    };
    const until = (when: string) => turned.filter((o) => o.observedAtMs <= clock(when));

    it('is over with the acknowledgement, and what it was raised for says why', () => {
      const before = drifts(until('12:05'), { now: '12:06' });
      expect(before.map((c) => [c.subject, c.truth])).toEqual([['', 'true']]);
      const after = drifts(until('12:05'), { now: '12:10', before, rebriefed });
      expect(after.map((c) => [c.subject, c.truth, c.basis])).toEqual([
        ['270', 'false', 'observed'],
        ['', 'false', 'record'],
      ]);
      expect(after[1]?.figures).toMatchObject({ what: 'rebriefed', windFromDeg: 270, wasFromDeg: 180 });
      // The evaluation after says nothing more of the direction before.
      expect(drifts(turned, { before: after, rebriefed }).map((c) => c.subject)).toEqual(['270']);
    });

    // The bound of a turn: 45° (AFMAN 15-111, 7.4.5, as FMH-1).
    it.each([
      [270, '314 5', 'false'],
      [270, '315 5', 'true'],
      [270, '225 5', 'true'],
      [270, '226 5', 'false'],
      [330, '15 5', 'true'],
      [330, '14 5', 'false'],
      [20, '335 5', 'true'],
      [20, '336 5', 'false'],
      [360, '45 5', 'true'],
      [360, '315 5', 'true'],
      [360, '44 5', 'false'],
    ])('acknowledged from %d, it goes on to %s: %s', (fromDeg, wind, truth) => {
      const told = { ...rebriefed, fromDeg, observedAtMs: clock('11:00') };
      expect(drift(steady(wind), { rebriefed: told })).toMatchObject({
        truth,
        figures: { wasFromDeg: fromDeg },
      });
    });

    it('counts no wind of before it, and begins anew from there', () => {
      expect(drift(turned, { rebriefed })).toMatchObject({ truth: 'false', figures: { wasFromDeg: 270 } });
      const back = [...turned, ...every(5, '13:05', '13:30', '180 5')];
      expect(drift(back, { now: '13:30', rebriefed })).toMatchObject({
        subject: '270',
        truth: 'true',
        verdict: 'hold',
        figures: { wasFromDeg: 270, windFromDeg: expect.closeTo(180, 6) },
      });
    });

    it('is unknown, and a hold, where nothing was told since', () => {
      const silent = { ...rebriefed, fromDeg: 200, observedAtMs: clock('12:30') };
      const last = drift(until('12:25'), { now: '13:00', rebriefed: silent });
      expect(last).toMatchObject({ truth: 'unknown', verdict: 'hold' });
    });
  });

  it('goes by the forecast at light-up where nothing is recorded, and is unknown without', () => {
    const burn = { ...OPEN_BURN, briefedFromDeg: null };
    expect(drift(steady('250 5'), { burn }).truth).toBe('true');
    expect(drift(steady('180 5'), { burn }).truth).toBe('false');
    expect(drift(steady('180 5'), { burn, plan: null })).toMatchObject({ truth: 'unknown', verdict: 'hold' });
  });

  it('is not over because the station went silent', () => {
    expect(drift(every(5, '11:00', '12:40', '250 5'))).toMatchObject({ truth: 'unknown', verdict: 'hold' });
  });
});

describe('a wind that swings about', () => {
  const swings = (observations: readonly Observation[], text: WatchText = {}) =>
    unsteady(watchContextOf({ observations, ...text }));
  const between = (a: number, b: number, speed = 5) =>
    every(1, '11:00', '13:00', (m) => `${m % 2 ? a : b} ${speed}`);

  it('is unsteady where directions can no longer be compared: a hold', () => {
    expect(swings(between(90, 180))).toMatchObject({ truth: 'true', verdict: 'hold' }); // length 0.71
    expect(swings(between(140, 180)).truth).toBe('false'); // length 0.94
    expect(swings(steady('VRB 5')).truth).toBe('true');
  });

  it('is not where it turned once from one direction to another, however far', () => {
    for (const everyMin of [1, 2, 5, 10]) {
      for (const to of ['270', '360', '90']) {
        const once = every(everyMin, '11:00', '13:00', (m) => `${m < 100 ? 180 : to} 5`);
        expect(swings(once).truth, `${to} every ${everyMin}`).toBe('false');
      }
    }
  });

  it('is seen by a station every five minutes in twenty, every ten in thirty', () => {
    for (const everyMin of [5, 10]) {
      const swinging = every(everyMin, '11:00', '13:00', (m) => `${(m / everyMin) % 2 ? 90 : 200} 5`);
      const station = { ...ON_SITE, periodMin: everyMin };
      expect(swings(swinging, { stations: [station] }).truth).toBe('true');
    }
  });

  it('is not where it is light or calm', () => {
    expect(swings(between(90, 180, 2)).truth).toBe('false');
    expect(swings(steady('VRB 1')).truth).toBe('false');
    expect(swings(steady('calm')).truth).toBe('false');
  });

  it('is over after half an hour of quiet', () => {
    const quietFrom = (from: string) =>
      between(90, 180).map((o) => (o.observedAtMs >= clock(from) ? seen(o.observedAtMs, '180 5') : o));
    expect(swings(quietFrom('12:10')).truth).toBe('false');
    expect(swings(quietFrom('12:45')).truth).toBe('true');
  });

  it('cannot be told by the hour, where each observation has one direction', () => {
    const hourly = [seen('11:53', '90 5', { station: 'KXYZ' }), seen('12:53', '270 5', { station: 'KXYZ' })];
    expect(swings(hourly, { stations: [AIRPORT] }).truth).toBe('false');
  });

  it('is unknown without an observation', () => {
    expect(swings(every(5, '11:00', '12:40', '180 5'))).toMatchObject({ truth: 'unknown', verdict: 'hold' });
  });
});
