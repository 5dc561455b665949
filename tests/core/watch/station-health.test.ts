import { describe, expect, it } from 'vitest';
import type { Observation } from '#core/watch/observation.ts';
import type { Station } from '#core/watch/station.ts';
import { spikesOf, stationHealth } from '#core/watch/station-health.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { AIRPORT, clock, every, ON_SITE, seen } from '../../builders/watch.ts';

const NOW = clock('13:00');
const stateOf = (
  observations: readonly Observation[],
  {
    station = ON_SITE,
    nowMs = NOW,
    othersMove = false,
  }: { station?: Station; nowMs?: number; othersMove?: boolean } = {},
) => stationHealth(station, observations, nowMs, DEFAULT_WATCH, () => othersMove).state;

/** A wind that moves by a degree and a tenth with every observation. */
const moving = (minute: number) => `${180 + ((minute * 7) % 23)} ${5 + ((minute * 3) % 11) / 10}`;

describe('a station that no longer tells', () => {
  it('is silent after two and a half of its periods, not before', () => {
    expect(stateOf([seen('12:47:30', '180 5')])).toBe('good');
    expect(stateOf([seen(clock('12:47:30') - 1, '180 5')])).toBe('silent');
    expect(stateOf([seen('10:30', '180 5')], { station: AIRPORT })).toBe('good');
    expect(stateOf([seen(clock('10:30') - 1, '180 5')], { station: AIRPORT })).toBe('silent');
  });

  it('is silent where it has not told at all', () => {
    expect(stationHealth(ON_SITE, [], NOW, DEFAULT_WATCH, () => true)).toMatchObject({
      state: 'silent',
      lastMs: null,
    });
  });

  it('is judged by when it measured, not by when that came (weather-gov/api issues 39, 68, 54)', () => {
    expect(stateOf([seen('11:00', '180 5', { receivedAtMs: NOW })])).toBe('silent');
  });
});

describe('a station that no longer moves', () => {
  it('is frozen where it tells the same wind a dozen times while others move', () => {
    const same = every(5, '12:05', '13:00', '180 5');
    expect(same.length).toBe(12);
    expect(stateOf(same, { othersMove: true })).toBe('frozen');
    expect(stateOf(same.slice(1), { othersMove: true })).toBe('good');
    expect(stateOf(same)).toBe('good');
  });

  it('is frozen where its direction stays to the degree for an hour and it has told finer ones', () => {
    const stuck = [seen('11:55', '183.4 5'), ...every(5, '12:00', '13:00', (m) => `180 ${5 + (m % 7) / 10}`)];
    expect(stateOf(stuck)).toBe('frozen');
    expect(stateOf([seen('12:00', '183.4 5'), ...stuck.slice(2)])).toBe('good');
  });

  it('that rounds to 10° is frozen only after three hours of one direction, or all that is looked back on', () => {
    const rounded = (from: string) => every(5, from, '13:00', (m) => `180 ${5 + (m % 7) / 10}`);
    expect(stateOf(rounded('10:00'))).toBe('frozen');
    expect(stateOf(rounded('10:05'))).toBe('frozen');
    expect(stateOf(rounded('10:10'))).toBe('good');
  });

  it('is not frozen by a calm, nor by an airport that says the same twice (Daveiano/weewx-wdc issue 311)', () => {
    expect(stateOf(every(5, '10:00', '13:00', 'calm'), { othersMove: true })).toBe('good');
    expect(stateOf(every(5, '10:00', '13:00', '180 0'), { othersMove: true })).toBe('good');
    const airport = every(60, '11:00', '13:00', '180 5');
    expect(stateOf(airport, { station: AIRPORT, othersMove: true })).toBe('good');
  });

  it('is not frozen where its observations tell no direction', () => {
    expect(stateOf(every(5, '10:00', '13:00', 'none 5'), { othersMove: true })).toBe('good');
    expect(stateOf(every(5, '10:00', '13:00', 'VRB 5'), { othersMove: true })).toBe('good');
  });
});

describe('a station that jumps', () => {
  const calm = every(5, '12:00', '13:00', moving);
  const withGust = (spiked: Readonly<Record<string, number>>) =>
    calm.map((o) => ({ ...o, gustMps: spiked[String((o.observedAtMs - clock('12:00')) / 60_000)] ?? 8 }));

  it('has a spike where one gust stands alone, however high or low', () => {
    expect(spikesOf(withGust({ 30: 18.1 }), DEFAULT_WATCH)).toEqual([clock('12:30')]);
    expect(spikesOf(withGust({ 30: 18 }), DEFAULT_WATCH)).toEqual([]);
    expect(spikesOf(withGust({ 30: 25, 35: 24 }), DEFAULT_WATCH)).toEqual([]);
  });

  it('the newest is none yet: a gust front begins so', () => {
    expect(spikesOf(withGust({ 60: 40 }), DEFAULT_WATCH)).toEqual([]);
    expect(stateOf(withGust({ 60: 40 }))).toBe('good');
  });

  it('is told of by how many it had within the hour, and still counts: a gust may be short', () => {
    const healthAt = (spiked: Readonly<Record<string, number>>, nowMs = NOW) =>
      stationHealth(ON_SITE, withGust(spiked), nowMs, DEFAULT_WATCH, () => false);
    expect(healthAt({ 20: 30 })).toMatchObject({ state: 'good', spikes: 1 });
    expect(healthAt({ 20: 30, 40: 30 })).toMatchObject({ state: 'good', spikes: 2 });
    expect(healthAt({ 5: 30, 40: 30 }, clock('13:10'))).toMatchObject({ state: 'good', spikes: 1 });
  });

  it('is doubted where its source doubts all that is fresh', () => {
    const doubt = (when: string) => seen(when, '180 5', { quality: 'doubtful' });
    expect(stateOf([...calm.slice(0, -3), doubt('12:50'), doubt('12:55'), doubt('13:00')])).toBe('doubtful');
    expect(stateOf([...calm.slice(0, -2), doubt('12:55'), doubt('13:00')])).toBe('good');
  });

  it('a blank gust between two others is no spike', () => {
    const blank = withGust({}).map((o, i) => (i === 6 ? { ...o, gustMps: null } : o));
    expect(spikesOf(blank, DEFAULT_WATCH)).toEqual([]);
  });
});
