// Observations of the NWS API made by hand, of an invented station. Each public report of a fault is named beside the
// case that repeats it; quality codes: madis-data.cprk.ncep.noaa.gov/doc/qc_info.txt.

import { describe, expect, it } from 'vitest';
import { readNwsObservation } from '#sources/stations/nws-observation.ts';

const NOW = Date.UTC(2026, 2, 2, 18, 20);
const KT = 1852 / 3600;
const station = { id: 'airport', calmBelowMps: 1, windHeightM: null, windAveragingS: null };
const read = (feature: unknown) =>
  readNwsObservation(feature, { stationId: 'KZZZ', station, receivedAtMs: NOW });

const value = (unitCode: string, number: unknown, qualityControl: unknown = 'V') => ({
  unitCode: `wmoUnit:${unitCode}`,
  value: number,
  qualityControl,
});
const kmh = (number: unknown, code: unknown = 'V') => value('km_h-1', number, code);
const deg = (number: unknown, code: unknown = 'V') => value('degree_(angle)', number, code);
const pct = (number: unknown, code: unknown = 'V') => value('percent', number, code);
const celsius = (number: unknown, code: unknown = 'V') => value('degC', number, code);
const feature = (more: object = {}) => ({
  properties: {
    station: 'https://api.weather.gov/stations/KZZZ',
    timestamp: '2026-03-02T17:53:00+00:00',
    rawMessage: '',
    temperature: celsius(10),
    ...more,
  },
});
const kinds = (told: ReturnType<typeof read>) => told.faults.map(({ kind }) => kind);

describe('wind that the values lack', () => {
  it('comes from the report: 22 kt in the METAR, null in the values (weather-gov/api#33)', () => {
    const { observation, faults } = read(
      feature({
        rawMessage: 'KZZZ 021753Z 20014G22KT 10SM CLR 07/M06',
        windSpeed: kmh(null, 'Z'),
        windDirection: deg(null, 'Z'),
        windGust: kmh(null, 'Z'),
      }),
    );
    expect(faults).toEqual([]);
    expect(observation).toMatchObject({
      wind: { kind: 'blowing', fromDeg: 200 },
      quality: 'unverified',
      windHeightM: 10,
      windAveragingS: 120,
    });
    expect(observation?.gustMps).toBeCloseTo(22 * KT, 9);
  });

  it('a gust of 20 kt in the METAR counts where the value is null (weather-gov/api#10)', () => {
    const { observation } = read(
      feature({
        rawMessage: 'KZZZ 021753Z 22012G20KT 2SM',
        windSpeed: kmh(22.32),
        windDirection: deg(220),
        windGust: kmh(null, 'Z'),
      }),
    );
    expect(observation?.gustMps).toBeCloseTo(20 * KT, 9);
  });

  it('no gust anywhere is none told, never a gust of 0 (weather-gov/weather.gov#1649)', () => {
    expect(read(feature({ windSpeed: kmh(31.7), windDirection: deg(220) })).observation?.gustMps).toBeNull();
  });

  it('variable is null in the values and VRB in the report (weather-gov/api#52)', () => {
    const vrb = feature({
      rawMessage: 'KZZZ 021753Z VRB03KT',
      windSpeed: kmh(5.4),
      windDirection: deg(null, 'Z'),
    });
    expect(read(vrb).observation?.wind).toEqual({ kind: 'variable', speedMps: 1.5 });
  });

  it('a null direction without a report is missing, its speed known', () => {
    const { observation } = read(feature({ windSpeed: kmh(18), windDirection: deg(null, 'Z') }));
    expect(observation?.wind).toEqual({ kind: 'missing', speedMps: 5 });
  });

  it.each([
    // weather-gov/api#93: 360 is north, 0 comes with calm; both occur.
    [0, 0, { kind: 'calm' }],
    [null, 0, { kind: 'calm' }],
    [360, 18, { kind: 'blowing', fromDeg: 360, speedMps: 5 }],
    [0, 18, { kind: 'blowing', fromDeg: 360, speedMps: 5 }],
    [29.999999999999996, 18, { kind: 'blowing', fromDeg: 30, speedMps: 5 }],
  ])('direction %s at %s km/h', (direction, speed, expected) => {
    const told = read(feature({ windSpeed: kmh(speed), windDirection: deg(direction) }));
    expect(told.observation?.wind).toEqual(expected);
  });

  it('nulls never become numbers (netbymatt/ws4kp#4)', () => {
    const nulls = {
      temperature: celsius(null, 'Z'),
      dewpoint: celsius(null),
      relativeHumidity: pct(null, 'S'),
      windSpeed: kmh(null),
      windDirection: deg(null),
      windGust: null,
      barometricPressure: value('Pa', 101_860),
    };
    expect(read(feature(nulls)).observation).toMatchObject({
      wind: { kind: 'missing', speedMps: null },
      gustMps: null,
      temperatureC: null,
      dewPointC: null,
      relativeHumidityPct: null,
      pressurePa: 101_860,
      thunder: null,
    });
  });
});

describe('values and report that disagree', () => {
  const wind = (raw: string, speed: number, from: number | null, gust: number | null = null) =>
    read(
      feature({
        rawMessage: `KZZZ 021753Z ${raw} 10SM`,
        windSpeed: kmh(speed),
        windDirection: deg(from),
        windGust: kmh(gust),
      }),
    );

  it.each([
    // Recorded: METAR 5 kt is 9.36 km/h in the API, 17 kt 31.68.
    ['22005KT', 9.36, 220],
    ['22017KT', 31.68, 220],
    ['36017KT', 31.68, 0],
    ['22017KT', 31.68, 230],
  ])('%s and %s km/h from %s agree', (raw, speed, from) => {
    const { observation, faults } = wind(raw, speed, from);
    expect(faults).toEqual([]);
    expect(observation?.quality).toBe('passed');
  });

  it('in speed: the stronger counts, doubted, and it is told', () => {
    const told = wind('22025KT', 18.36, 220);
    expect(told.observation).toMatchObject({ wind: { kind: 'blowing', fromDeg: 220 }, quality: 'doubtful' });
    expect(told.observation?.wind).toHaveProperty('speedMps', expect.closeTo(25 * KT, 9));
    expect(told.faults).toMatchObject([{ kind: 'disagrees-with-report', where: 'windSpeed' }]);
  });

  it('in calm or not: what blows counts, doubted', () => {
    const told = wind('00000KT', 18, 220);
    expect(told.observation).toMatchObject({ wind: { kind: 'blowing', speedMps: 5 }, quality: 'doubtful' });
  });

  it('in direction: it is missing, the speed known', () => {
    const told = wind('31010KT', 18.36, 220);
    expect(told.observation).toMatchObject({ wind: { kind: 'missing' }, quality: 'doubtful' });
    expect(told.faults).toMatchObject([{ where: 'windDirection' }]);
  });

  it('in gust: the stronger counts, doubted', () => {
    const told = wind('22010G35KT', 18.36, 220, 40);
    expect(told.observation?.quality).toBe('doubtful');
    expect(told.observation?.gustMps).toBeCloseTo(35 * KT, 9);
  });

  it('a direction that only one tells is taken', () => {
    expect(wind('31010KT', 18.36, null).observation?.wind).toMatchObject({ kind: 'blowing', fromDeg: 310 });
    expect(wind('///10KT', 18.36, 220).observation?.wind).toMatchObject({ kind: 'blowing', fromDeg: 220 });
  });

  it('a gust weaker than the wind is none, and told', () => {
    const told = read(feature({ windSpeed: kmh(36), windDirection: deg(220), windGust: kmh(20) }));
    expect(told.observation?.gustMps).toBeNull();
    expect(kinds(told)).toEqual(['gust-below-wind']);
  });

  it.each([
    ['of another hour', 'KZZZ 021653Z 31025KT', 'other-time'],
    ['of another station', 'KYYY 021753Z 31025KT', 'other-station'],
    ['that cannot be read', 'KZZZ garbled', 'no-report'],
  ])('a report %s is left out, and told', (_, rawMessage, kind) => {
    const told = read(feature({ rawMessage, windSpeed: kmh(18), windDirection: deg(220) }));
    expect(told.observation).toMatchObject({ wind: { fromDeg: 220 }, raw: null, windHeightM: null });
    expect(kinds(told)).toEqual([kind]);
  });
});

describe('quality codes', () => {
  it.each([
    ['V', 'passed'],
    ['C', 'passed'],
    ['S', 'passed'],
    ['G', 'passed'],
    ['qc:V', 'passed'],
    ['Z', 'unverified'],
    [null, 'unverified'],
    [7, 'unverified'],
    ['toString', 'unverified'],
    ['Q', 'doubtful'],
    ['I', 'doubtful'],
  ])('%s: %s', (code, expected) => {
    const told = read(feature({ windSpeed: kmh(18, code), windDirection: deg(220, code) }));
    expect(told.observation).toMatchObject({ wind: { speedMps: 5 }, quality: expected });
  });

  it.each(['X', 'B'])(
    '%s is rejected: a gust of 148 km/h is missing, and told (weather-gov/api#126)',
    (code) => {
      const told = read(feature({ windSpeed: kmh(18), windDirection: deg(220), windGust: kmh(148.2, code) }));
      expect(told.observation?.gustMps).toBeNull();
      expect(kinds(told)).toEqual(['rejected']);
    },
  );

  it('a null value vouches for nothing, whatever its code', () => {
    const told = read(feature({ windSpeed: kmh(18), windDirection: deg(220), windGust: kmh(null, 'Q') }));
    expect(told.observation?.quality).toBe('passed');
  });
});

describe('units', () => {
  it.each([
    [{ value: 10, unitCode: 'unit:m_s-1', qualityControl: 'qc:V' }, 10],
    [{ value: 36, unitCode: 'km/h' }, 10],
  ])('%j', (windSpeed, mps) => {
    expect(read(feature({ windSpeed, windDirection: deg(220) })).observation?.wind).toMatchObject({
      speedMps: mps,
    });
  });

  it.each([
    [{ value: 10, unitCode: 'wmoUnit:furlong' }, 'unknown-unit'],
    [{ value: 10 }, 'unknown-unit'],
    [{ value: '10', unitCode: 'wmoUnit:km_h-1' }, 'no-number'],
    [10, 'no-quantity'],
    [{ value: -5, unitCode: 'wmoUnit:km_h-1' }, 'out-of-range'],
    [{ value: 900, unitCode: 'wmoUnit:km_h-1' }, 'out-of-range'],
  ])('%j is missing, and told as %s', (windSpeed, kind) => {
    const told = read(feature({ windSpeed, windDirection: deg(220) }));
    expect(told.observation?.wind).toEqual({ kind: 'missing', speedMps: null });
    expect(kinds(told)).toEqual([kind]);
  });
});
