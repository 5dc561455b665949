import { describe, expect, it } from 'vitest';
import { chooseStation, rankStations, type Watched } from '#core/watch/choose-station.ts';
import type { Observation } from '#core/watch/observation.ts';
import type { Station } from '#core/watch/station.ts';
import { stationHealth } from '#core/watch/station-health.ts';
import { DEFAULT_WATCH } from '#core/watch/watch-settings.ts';
import { AIRPORT, clock, ON_SITE, PERSON, seen } from '../../builders/watch.ts';

const NOW = clock('13:00');
const FARTHER: Station = { ...AIRPORT, id: 'KABC', distanceM: 20_000 };

/** Each station told once, at the time given. */
function chosenOf(
  told: readonly (readonly [Station, string | null])[],
  tells: (o: Observation) => boolean = (o) => o.wind.kind !== 'missing',
  more: Partial<Observation> = {},
) {
  const times = new Map(told.map(([station, when]) => [station.id, when]));
  const ranked: Watched[] = rankStations(told.map(([station]) => station)).map((station) => {
    const when = times.get(station.id) ?? null;
    const observations = when === null ? [] : [seen(when, '180 5', { station: station.id, ...more })];
    return {
      station,
      observations,
      health: stationHealth(station, observations, NOW, DEFAULT_WATCH, () => false),
      lateMs: new Set(),
      winds: [],
      doubted: [],
    };
  });
  const { chosen, passedOver } = chooseStation(ranked, tells, NOW, DEFAULT_WATCH);
  return [chosen?.station.id ?? null, ...passedOver.map((p) => `${p.watched.station.id} ${p.why}`)];
}

describe('the station that is believed', () => {
  it('is the one on site, before a person, before the nearest elsewhere', () => {
    const all = [FARTHER, AIRPORT, PERSON, ON_SITE];
    expect(chosenOf(all.map((s) => [s, '12:55']))).toEqual(['mast']);
    expect(chosenOf(all.slice(0, 3).map((s) => [s, '12:55']))).toEqual(['foreman']);
    expect(chosenOf(all.slice(0, 2).map((s) => [s, '12:55']))).toEqual(['KXYZ']);
  });

  it('is the next where the first has gone silent, and says so', () => {
    expect(
      chosenOf([
        [ON_SITE, '12:40'],
        [PERSON, '11:30'],
        [AIRPORT, '12:53'],
      ]),
    ).toEqual(['KXYZ', 'mast silent', 'foreman silent']);
  });

  it('is none where none is left, with why of each', () => {
    expect(
      chosenOf([
        [ON_SITE, null],
        [AIRPORT, '10:29'],
      ]),
    ).toEqual([null, 'mast silent', 'KXYZ silent']);
    expect(chosenOf([])).toEqual([null]);
  });

  it.each([
    ['too-far', { distanceM: 30_001 }],
    ['too-high', { aboveSiteM: 151 }],
    ['too-high', { aboveSiteM: -151 }],
    ['height-unknown', { aboveSiteM: null }],
    ['too-far', { distanceM: Number.NaN }],
  ])('is none elsewhere that is %s', (why, changes) => {
    expect(chosenOf([[{ ...AIRPORT, ...changes }, '12:53']])).toEqual([null, `KXYZ ${why}`]);
  });

  it('at the very distance and height still counts', () => {
    expect(chosenOf([[{ ...AIRPORT, distanceM: 30_000, aboveSiteM: 150 }, '12:53']])).toEqual(['KXYZ']);
  });

  it('is not one that does not tell what is asked', () => {
    expect(chosenOf([[ON_SITE, '12:55']], (o) => o.relativeHumidityPct !== null)).toEqual([
      null,
      'mast tells-not',
    ]);
  });

  it('is not one whose word its source doubts', () => {
    expect(chosenOf([[ON_SITE, '12:55']], undefined, { quality: 'doubtful' })).toEqual([
      null,
      'mast doubtful',
    ]);
  });
});
