// Observations of the NWS API as a whole: those that are of no use, what the report adds, the recorded ones, and any JSON.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseInstantMs } from '#core/units/local-time.ts';
import { readMetar } from '#sources/stations/metar.ts';
import { readNwsObservation } from '#sources/stations/nws-observation.ts';
import { describeRecorded, parsed, recorded, recordedNames } from '../recorded.ts';

const NOW = Date.UTC(2026, 2, 2, 18, 20);
const station = { id: 'airport', calmBelowMps: 1, windHeightM: null, windAveragingS: null };
const read = (feature: unknown, stationId = 'KZZZ', receivedAtMs = NOW) =>
  readNwsObservation(feature, { stationId, station, receivedAtMs });
const value = (unitCode: string, number: number) => ({ unitCode, value: number, qualityControl: 'V' });
const feature = (more: object = {}) => ({
  properties: {
    timestamp: '2026-03-02T17:53:00+00:00',
    temperature: value('wmoUnit:degC', 10),
    ...more,
  },
});

describe('an observation of no use', () => {
  const zero = (unit: string) => value(unit, 0);

  it.each([
    ['without a time', feature({ timestamp: null }), 'no-time'],
    ['with a time that is none', feature({ timestamp: 'yesterday' }), 'no-time'],
    ['six minutes ahead', feature({ timestamp: '2026-03-02T18:26:00+00:00' }), 'ahead-of-time'],
    ['of another station', feature({ station: 'https://api.weather.gov/stations/KYYY' }), 'other-station'],
    [
      // weather-gov/api#61
      'all zeros in the place of values',
      feature({
        temperature: zero('wmoUnit:degC'),
        dewpoint: zero('wmoUnit:degC'),
        relativeHumidity: zero('wmoUnit:percent'),
        windSpeed: zero('wmoUnit:km_h-1'),
      }),
      'zeros',
    ],
    ['blank', { properties: { timestamp: '2026-03-02T17:53:00+00:00' } }, 'blank'],
    ['no feature', 7, 'no-observation'],
    ['without properties', {}, 'no-observation'],
  ])('%s is left out, and told', (_, told, kind) => {
    const { observation, faults } = read(told);
    expect(observation).toBeNull();
    expect(faults.map((f) => f.kind)).toEqual([kind]);
  });

  it('one three days old is read: its age is by its own time, not by when it came (weather-gov/api#28)', () => {
    const { observation } = read(feature({ timestamp: '2026-02-27T15:53:00+00:00' }));
    expect(observation).toMatchObject({
      observedAtMs: Date.UTC(2026, 1, 27, 15, 53),
      receivedAtMs: NOW,
    });
  });

  it('freezing air at 0 °C and 100 % is no row of zeros', () => {
    const { observation } = read(
      feature({
        temperature: zero('wmoUnit:degC'),
        dewpoint: zero('wmoUnit:degC'),
        relativeHumidity: value('wmoUnit:percent', 100),
      }),
    );
    expect(observation).toMatchObject({ temperatureC: 0, relativeHumidityPct: 100 });
  });
});

describe('what the report adds', () => {
  it('wind shift, peak wind, thunder and correction', () => {
    const rawMessage =
      'KZZZ 021753Z COR 20014G22KT 3SM TSRA 07/M06 A3028 RMK AO2 PK WND 28045/15 WSHFT 1715 T00671061';
    const { observation, faults } = read(feature({ rawMessage }));
    expect(faults).toEqual([]);
    expect(observation).toMatchObject({
      thunder: true,
      corrects: true,
      windShiftAtMs: Date.UTC(2026, 2, 2, 17, 15),
      raw: rawMessage,
    });
    // The peak of 38 minutes before keeps its own time (FMH-1, 5.4.5); the gust is of the ten minutes before (5.4.4).
    expect(observation?.gustMps).toBeCloseTo((22 * 1852) / 3600, 9);
    expect(observation?.peak).toEqual({
      atMs: Date.UTC(2026, 2, 2, 17, 15),
      speedMps: expect.closeTo((45 * 1852) / 3600, 9),
    });
  });

  it.each([
    [{ presentWeather: [{ weather: 'thunderstorms', rawString: 'TS' }] }],
    [{ presentWeather: [{ weather: null, rawString: '+TSRA' }] }],
    [{ textDescription: 'Thunderstorms in Vicinity' }],
  ])('thunder in %j counts without a report', (more) => {
    expect(read(feature(more)).observation?.thunder).toBe(true);
  });

  it('humidity is derived where only the dew point is told, and not from one above the temperature', () => {
    const derived = read(feature({ dewpoint: value('wmoUnit:degC', 5) })).observation;
    // Bolton 1980, equation 10: e(5)/e(10) = 8.722/12.272 hPa.
    expect(derived?.relativeHumidityPct).toBeCloseTo(71.1, 1);
    const wrong = read(feature({ dewpoint: value('wmoUnit:degC', 15) }));
    expect(wrong.observation?.relativeHumidityPct).toBeNull();
    expect(wrong.faults.map((f) => f.kind)).toEqual(['dew-point-above-temperature']);
  });
});

describeRecorded('recorded observations', () => {
  const rows = recordedNames('observation').flatMap((name) => {
    const { bytes, nowMs } = recorded(name);
    const document = parsed(bytes) as {
      features?: { properties: Record<string, unknown> }[];
      properties?: Record<string, unknown>;
    };
    const features = document.features ?? [{ properties: document.properties ?? {} }];
    return features.map((one, i) => ({ name: `${name} ${i}`, one, nowMs }));
  });
  const ofName = (part: string) => rows.filter(({ name }) => name.includes(part));
  const readRow = ({ one, nowMs }: (typeof rows)[number]) => {
    const stationId = String(one.properties['station']).split('/').at(-1) ?? '';
    return read(one, stationId, nowMs);
  };

  it('are all read, every value as told, in m/s, °C and %', () => {
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) {
      const { observation } = readRow(row);
      const told = (name: string) => (row.one.properties[name] as { value: number | null }).value;
      expect(observation, row.name).not.toBeNull();
      const speed = told('windSpeed');
      if (speed !== null && speed >= 3.6)
        expect(observation?.wind, row.name).toMatchObject({ speedMps: expect.closeTo(speed / 3.6, 6) });
      expect(observation?.temperatureC ?? null, row.name).toBeCloseTo(told('temperature') ?? Number.NaN, 1);
    }
  });

  it('agree with their own report, but for one that was played on another day', () => {
    const odd = rows.filter((row) => readRow(row).faults.length > 0).map(({ name }) => name);
    expect(odd).toEqual(['observations-limit1_PGUM_20260514_reltime.json 0']);
    expect(ofName('PGUM').map((row) => readRow(row).faults[0]?.kind)).toEqual(['other-time']);
  });

  it('the report alone tells what the values tell: wind, temperatures, humidity and altimeter setting', () => {
    const reports = rows.filter(({ one }) => one.properties['rawMessage'] !== '');
    expect(reports.length).toBeGreaterThanOrEqual(5);
    for (const row of reports) {
      const text = String(row.one.properties['rawMessage']);
      const aroundMs = parseInstantMs(String(row.one.properties['timestamp'])) ?? 0;
      const { reading, faults } = readMetar(text, { aroundMs, calmBelowMps: 1 });
      expect(faults, text).toEqual([]);
      const told = (name: string) =>
        (row.one.properties[name] as { value: number | null }).value ?? Number.NaN;
      const speed = told('windSpeed');
      // Knots by way of 0.1 m/s.
      if (!Number.isNaN(speed)) {
        expect(reading?.wind, text).toMatchObject({ fromDeg: told('windDirection') });
        expect(reading?.wind, text).toHaveProperty('speedMps', expect.closeTo(speed / 3.6, 0));
      }
      expect(reading?.temperatureC, text).toBeCloseTo(told('temperature'), 1);
      expect(reading?.dewPointC, text).toBeCloseTo(told('dewpoint'), 1);
      expect(Math.abs((reading?.relativeHumidityPct ?? 0) - told('relativeHumidity')), text).toBeLessThan(
        0.3,
      );
      expect(Math.abs((reading?.pressurePa ?? 0) - told('barometricPressure')), text).toBeLessThan(10);
    }
  });

  it('KFLG: the wind is null in the values, 200 at 14 gusting 22 kt in the report', () => {
    const [row] = ofName('KFLG');
    const { observation } = readRow(row as (typeof rows)[number]);
    expect(observation?.wind).toMatchObject({ kind: 'blowing', fromDeg: 200 });
    expect(observation?.wind).toHaveProperty('speedMps', expect.closeTo((14 * 1852) / 3600, 9));
    expect(observation?.gustMps).toBeCloseTo((22 * 1852) / 3600, 9);
    expect(observation?.relativeHumidityPct).toBeCloseTo(39.59, 2);
  });

  it('a station without a report has neither height nor averaging', () => {
    const [row] = ofName('PATQ');
    const { observation } = readRow(row as (typeof rows)[number]);
    expect(observation).toMatchObject({ windHeightM: null, windAveragingS: null, quality: 'passed' });
  });

  it('OAMC1: half a day old, without wind, by its own time', () => {
    const [row] = ofName('OAMC1');
    const { observation } = readRow(row as (typeof rows)[number]);
    expect(observation?.wind).toEqual({ kind: 'missing', speedMps: null });
    expect((observation?.receivedAtMs ?? 0) - (observation?.observedAtMs ?? 0)).toBe(48_747_000);
  });
});

describe('any JSON', () => {
  it('nested beyond sense is told, not thrown', () => {
    let deep: unknown = 1;
    for (let i = 0; i < 100_000; i += 1) deep = [deep];
    const told = read(feature({ windSpeed: deep, windGust: { value: deep, unitCode: 'wmoUnit:km_h-1' } }));
    expect(told.faults.map(({ kind }) => kind)).toEqual(['no-quantity', 'no-number']);
  });

  it('never throws, and never blows without a speed or a report', () => {
    const quantity = fc.record({
      unitCode: fc.constantFrom('wmoUnit:km_h-1', 'wmoUnit:degree_(angle)', 'wmoUnit:percent', 'x'),
      value: fc.oneof(fc.constant(null), fc.double(), fc.integer({ min: -5, max: 400 }), fc.string()),
      qualityControl: fc.constantFrom('V', 'Z', 'X', 'Q', null),
    });
    const member = fc.oneof(quantity, fc.jsonValue());
    const properties = fc.record(
      {
        timestamp: fc.constantFrom('2026-03-02T17:53:00+00:00', '', 'x'),
        rawMessage: fc.oneof(fc.constantFrom('', 'KZZZ 021753Z /////KT', 'KZZZ 021753Z AUTO'), fc.string()),
        windSpeed: member,
        windDirection: member,
        windGust: member,
        relativeHumidity: member,
        presentWeather: fc.jsonValue(),
      },
      { requiredKeys: ['timestamp'] },
    );
    const anything = fc.oneof(
      fc.jsonValue(),
      properties.map((p) => ({ properties: p })),
    );
    fc.assert(
      fc.property(anything, (told) => {
        const { observation } = read(told);
        if (observation?.wind.kind !== 'blowing') return;
        const speed = (told as { properties: { windSpeed: { value: unknown } } }).properties.windSpeed;
        expect(typeof speed.value).toBe('number');
      }),
      { numRuns: 1000 },
    );
  });
});
