// The raw grid against the fault log of the API's public reports (reference, parts B and C). Documents are ours; the
// office XXX is invented.

import { describe, expect, it } from 'vitest';
import * as f from './grid-fixture.ts';

const { at, faultsOf, hoursOf, readGrid } = f;
const gaps = (n: number, reason: string): string[] => Array.from({ length: n }, () => reason);

describe('a grid with faults that were reported', () => {
  it('keeps a gust that equals the wind as it came (api#48)', () => {
    const wind = f.kmh(at('18/PT6H', 18.52));
    const reading = readGrid({ windSpeed: wind, windGust: wind });
    expect(hoursOf(reading, 'windGust')).toEqual(hoursOf(reading, 'windSpeed'));
  });

  it('keeps a gust less than 8 mph over the wind (wg#996)', () => {
    const reading = readGrid({ windSpeed: f.kmh(at('18/PT6H', 32.2)), windGust: f.kmh(at('18/PT6H', 43.5)) });
    expect(hoursOf(reading, 'windGust')[0]).toBeCloseTo(43.5 / 3.6, 9);
  });

  it('tells an empty layer from an absent one (api#24)', () => {
    const reading = readGrid({ mixingHeight: f.metres() });
    expect(hoursOf(reading, 'mixingHeight')).toEqual(gaps(6, 'layer-empty'));
    expect(hoursOf(reading, 'windSpeed')).toEqual(gaps(6, 'layer-absent'));
    expect(faultsOf(reading)).toEqual([]);
  });

  it('ends a layer where it ends, though others go on', () => {
    const reading = readGrid({
      mixingHeight: f.metres(at('18/PT4H', 600)),
      windSpeed: f.kmh(at('18/P7DT4H', 9.26)),
    });
    expect(hoursOf(reading, 'mixingHeight')).toEqual([600, 600, 600, 600, 'ended', 'ended']);
    expect(hoursOf(reading, 'windSpeed')).not.toContain('ended');
  });

  it('puts each value in its own hour, the first value being hours ago (api#20)', () => {
    const reading = readGrid({
      validTimes: '2026-03-02T11:00:00+00:00/P7DT14H',
      windSpeed: f.kmh(at('11/PT3H', 3.6), at('14/PT6H', 28.8)),
    });
    expect(reading.forecast.series.startMs).toBe(Date.UTC(2026, 2, 2, 11));
    expect(reading.forecast.series.hours).toBe(182);
    expect(hoursOf(reading, 'windSpeed').slice(0, 10)).toEqual([1, 1, 1, 8, 8, 8, 8, 8, 8, 'ended']);
  });

  it('joins layers of different steps hour by hour (api#111)', () => {
    const reading = readGrid({
      windSpeed: f.kmh(at('18/PT6H', 9)),
      relativeHumidity: f.percent(at('18/PT1H', 41), at('19/PT1H', 38)),
    });
    expect(hoursOf(reading, 'windSpeed')).toEqual([2.5, 2.5, 2.5, 2.5, 2.5, 2.5]);
    expect(hoursOf(reading, 'relativeHumidity')).toEqual([41, 38, ...gaps(4, 'ended')]);
  });

  it('shares a six-hour rain total out instead of repeating it (api#21)', () => {
    const reading = readGrid({ quantitativePrecipitation: f.mm(at('18/PT6H', 2.4)) });
    const hours = hoursOf(reading, 'quantitativePrecipitation') as number[];
    for (const hour of hours) expect(hour).toBeCloseTo(0.4, 9);
  });

  it('reads a duration of days and hours (api#69)', () => {
    const reading = readGrid({
      validTimes: '2026-03-02T18:00:00+00:00/P1DT8H',
      windSpeed: f.kmh(at('18/P1DT6H', 7.2)),
    });
    expect(hoursOf(reading, 'windSpeed')).toEqual([...Array(30).fill(2), 'ended', 'ended']);
  });

  it('reads an offset west of UTC as the same instant (api#77)', () => {
    const reading = readGrid({ windSpeed: f.kmh(at('2026-03-02T08:00:00-10:00/PT1H', 36)) });
    expect(hoursOf(reading, 'windSpeed')[0]).toBe(10);
  });

  it('counts only uom, not the sourceUnit beside it (api#47)', () => {
    const layer = { sourceUnit: 'kts', uom: 'unit:m_s-1', values: [at('18/PT6H', 4.1155)] };
    expect(hoursOf(readGrid({ windSpeed: layer }), 'windSpeed')[0]).toBe(4.1155);
  });

  it('takes the same number in m/s for 3.6 times that in km/h', () => {
    const perSecond = readGrid({ windSpeed: { uom: 'unit:m_s-1', values: [at('18/PT6H', 9.26)] } });
    const perHour = readGrid({ windSpeed: f.kmh(at('18/PT6H', 9.26)) });
    expect(hoursOf(perSecond, 'windSpeed')[0]).toBe(9.26);
    expect(hoursOf(perHour, 'windSpeed')[0]).toBeCloseTo(9.26 / 3.6, 9);
    expect(perSecond.units).toEqual({ windSpeed: 'unit:m_s-1' });
  });

  it('keeps a mixing height of zero as a value', () => {
    const reading = readGrid({
      mixingHeight: f.metres(at('18/PT1H', 128.9), at('19/PT1H', 0), at('20/PT1H', 19.8)),
    });
    expect(hoursOf(reading, 'mixingHeight').slice(0, 3)).toEqual([128.9, 0, 19.8]);
  });

  it('leaves a hole inside a layer a hole', () => {
    const layer = { values: [at('18/PT1H', 3), at('22/PT2H', 5)] };
    const reading = readGrid({ lowVisibilityOccurrenceRiskIndex: layer });
    expect(hoursOf(reading, 'lowVisibilityIndex')).toEqual([3, 'gap', 'gap', 'gap', 5, 5]);
  });

  it('keeps a hazard whose list is empty as an unspecified one', () => {
    const hazard = { phenomenon: 'FW', significance: 'W', event_number: null };
    const reading = readGrid({ hazards: { values: [at('18/P1DT19H', []), at('20/PT1H', [hazard])] } });
    expect(reading.forecast.hazards).toEqual([
      { fromMs: f.START_MS, toMs: f.START_MS + 43 * 3_600_000, phenomenon: null, significance: null },
      { fromMs: f.START_MS + 7_200_000, toMs: f.START_MS + 10_800_000, phenomenon: 'FW', significance: 'W' },
    ]);
  });

  it('takes the larger gust of intervals that overlap, drops an empty one, and counts both', () => {
    const gust = f.kmh(at('19/PT2H', 21.6), at('18/PT3H', 46.8), at('21/PT0S', 0));
    const reading = readGrid({ windGust: gust });
    expect(hoursOf(reading, 'windGust')).toEqual([13, 13, 13, ...gaps(3, 'ended')]);
    expect(faultsOf(reading)).toEqual([
      'interval-unsorted windGust 1',
      'interval-empty windGust 1',
      'interval-overlap windGust 1',
    ]);
  });

  it('has no wind where two intervals contradict each other', () => {
    const reading = readGrid({ windSpeed: f.kmh(at('18/PT3H', 36), at('20/PT2H', 18)) });
    expect(hoursOf(reading, 'windSpeed')).toEqual([10, 10, 'contradictory', 5, 'ended', 'ended']);
    expect(faultsOf(reading)).toEqual(['interval-overlap windSpeed 1', 'contradictory windSpeed 1']);
  });

  it.each([
    ['relativeHumidity', f.percent(at('18/PT6H', 1137)), 'relativeHumidity'],
    ['windSpeed', f.kmh(at('18/PT6H', 404)), 'windSpeed'],
    ['windGust', f.kmh(at('18/PT6H', -1)), 'windGust'],
    ['temperature', f.celsius(at('18/PT6H', 1500)), 'temperature'],
    ['mixingHeight', f.metres(at('18/PT6H', 10_001)), 'mixingHeight'],
    ['windDirection', f.degrees(at('18/PT6H', 370)), 'windDirection'],
  ] as const)('has no %s out of its plausible range', (layer, content, element) => {
    const reading = readGrid({ [layer]: content });
    expect(hoursOf(reading, element)).toEqual(gaps(6, 'out-of-range'));
    expect(faultsOf(reading)).toEqual([`out-of-range ${layer} 1`]);
  });

  it('has no dew point more than 1 °C above the temperature', () => {
    const reading = readGrid({
      temperature: f.celsius(at('18/PT6H', 10)),
      dewpoint: f.celsius(at('18/PT1H', 10.9), at('19/PT5H', 11.1)),
    });
    expect(hoursOf(reading, 'dewPoint')).toEqual([10.9, ...gaps(5, 'contradictory')]);
    expect(faultsOf(reading)).toEqual(['dew-point-above-temperature dewpoint 5']);
  });

  it('has no wind where the value is null, and keeps the hours round it (wg PR 1907)', () => {
    const reading = readGrid({ windSpeed: f.kmh(at('18/PT1H', 36), at('19/PT1H', null), at('20/PT4H', 18)) });
    expect(hoursOf(reading, 'windSpeed')).toEqual([10, 'null-value', 5, 5, 5, 5]);
    expect(faultsOf(reading)).toEqual([]);
  });

  it('keeps the direction of a wind of zero (api#138)', () => {
    const reading = readGrid({
      windSpeed: f.kmh(at('18/PT6H', 0)),
      windDirection: f.degrees(at('18/PT6H', 340)),
    });
    expect(hoursOf(reading, 'windSpeed')[0]).toBe(0);
    expect(hoursOf(reading, 'windDirection')[0]).toBe(340);
  });

  it('reads the chance of rain as given', () => {
    const reading = readGrid({ probabilityOfPrecipitation: f.percent(at('18/PT6H', 74)) });
    expect(hoursOf(reading, 'probabilityOfPrecipitation')).toEqual([74, 74, 74, 74, 74, 74]);
  });

  it('states the update time as written, be it days old or ahead (api#71)', () => {
    for (const updateTime of ['2026-02-25T09:10:00+00:00', '2026-03-09T00:00:00+00:00']) {
      expect(readGrid({ updateTime }).forecast.issuedAtMs).toBe(Date.parse(updateTime));
    }
  });

  it.each([[undefined], [null], ['soon'], [1_772_474_400], ['2026-03-02']])(
    'is undated with update time %s',
    (updateTime) => {
      const reading = readGrid({ updateTime });
      expect(reading.forecast.issuedAtMs).toBeNull();
      expect(faultsOf(reading)).toEqual(['update-time-unreadable updateTime 1']);
    },
  );
});
