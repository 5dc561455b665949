// Readings as posted. Factors: BIPM SI brochure and NIST SP 811, appendix B; the law of calm, variable and north: FMH-1,
// chapter 5.

import { describe, expect, it } from 'vitest';
import type { Station } from '#core/watch/station.ts';
import type { DirectionSettings } from '#core/watch/station-source.ts';
import { postedObservation } from '#sources/stations/posted-observation.ts';
import { station as sourceStation } from './fake-stations.ts';

const NOW = Date.UTC(2026, 2, 2, 20, 6);
const { station } = sourceStation({ kind: 'posted' }, { id: 'mast', calmBelowMps: 0.5, windHeightM: 3 });
const TRUE: DirectionSettings = { reference: 'true', declinationDeg: null, mountDeg: null };

const judge = (item: unknown, directions: Partial<DirectionSettings> = {}, own: Partial<Station> = {}) =>
  postedObservation(item, {
    stationNamed: (id) =>
      id === 'mast' ? { station: { ...station, ...own }, directions: { ...TRUE, ...directions } } : null,
    receivedAtMs: NOW,
  });
const reading = (more: object = {}) => ({
  station: 'mast',
  time: '2026-03-02T14:05:00-06:00',
  windSpeed: '10 mph',
  windDirection: 210,
  ...more,
});
const fields = ({ faults }: ReturnType<typeof judge>) => faults.map(({ field }) => field);

describe('a posted reading', () => {
  it('becomes an observation in core units, with its own time and as it came', () => {
    const item = reading({
      windGust: { value: 20, unit: 'kt' },
      windHeight: '10 ft',
      windAveraging: '2 min',
      relativeHumidity: '41.5 %',
      temperature: '50 °F',
      dewPoint: '40 degF',
      pressure: '29.92 inHg',
      thunder: false,
      quality: 'passed',
      corrects: true,
    });
    expect(judge(item)).toEqual({
      faults: [],
      observation: {
        station: 'mast',
        observedAtMs: Date.UTC(2026, 2, 2, 20, 5),
        receivedAtMs: NOW,
        wind: { kind: 'blowing', fromDeg: 210, speedMps: expect.closeTo(4.4704, 9) },
        windHeightM: expect.closeTo(3.048, 9),
        windAveragingS: 120,
        gustMps: expect.closeTo((20 * 1852) / 3600, 9),
        relativeHumidityPct: 41.5,
        temperatureC: expect.closeTo(10, 9),
        dewPointC: expect.closeTo(40 / 9, 9),
        pressurePa: expect.closeTo(101_320.76, 1),
        thunder: false,
        windShiftAtMs: null,
        quality: 'passed',
        corrects: true,
        raw: JSON.stringify(item),
      },
    });
  });

  it('that says little is unverified, with the mast of the configuration', () => {
    expect(judge(reading()).observation).toMatchObject({
      windHeightM: 3,
      windAveragingS: null,
      gustMps: null,
      relativeHumidityPct: null,
      thunder: null,
      quality: 'unverified',
      corrects: false,
    });
  });

  it('gives humidity from the dew point where it tells none', () => {
    const told = judge(reading({ temperature: '10 °C', dewPoint: '5 °C' }));
    // Bolton 1980, equation 10: e(5)/e(10) = 8.722/12.272 hPa.
    expect(told.observation?.relativeHumidityPct).toBeCloseTo(71.1, 1);
    const wrong = judge(reading({ temperature: '10 °C', dewPoint: '15 °C' }));
    expect(wrong.observation?.relativeHumidityPct).toBeNull();
    expect(fields(wrong)).toEqual(['dewPoint']);
  });
});

describe('calm, variable, missing and north', () => {
  it.each([
    ['10 mph', 0, { kind: 'blowing', fromDeg: 360, speedMps: 4.4704 }],
    ['10 mph', 360, { kind: 'blowing', fromDeg: 360, speedMps: 4.4704 }],
    ['0 mph', 0, { kind: 'calm' }],
    ['0 mph', 210, { kind: 'calm' }],
    ['1 mph', 0, { kind: 'calm' }],
    ['0 mph', 'calm', { kind: 'calm' }],
    [null, 'calm', { kind: 'calm' }],
    ['10 mph', 'variable', { kind: 'variable', speedMps: 4.4704 }],
    ['10 mph', null, { kind: 'missing', speedMps: 4.4704 }],
    [null, 210, { kind: 'missing', speedMps: null }],
    [null, 0, { kind: 'missing', speedMps: null }],
    [null, 'variable', { kind: 'missing', speedMps: null }],
    [null, null, { kind: 'missing', speedMps: null }],
  ])('%s from %s', (windSpeed, windDirection, expected) => {
    const told = judge(reading({ windSpeed, windDirection, temperature: '10 °C' }));
    expect(told.faults).toEqual([]);
    expect(told.observation?.wind).toEqual(
      'speedMps' in expected && typeof expected.speedMps === 'number'
        ? { ...expected, speedMps: expect.closeTo(expected.speedMps, 9) }
        : expected,
    );
  });

  it('calm at a speed contradicts itself: no direction, and told', () => {
    const told = judge(reading({ windDirection: 'calm' }));
    expect(told.observation?.wind).toMatchObject({ kind: 'missing' });
    expect(fields(told)).toEqual(['windDirection']);
  });

  it('calm with an absurd speed is no calm', () => {
    const told = judge(reading({ windDirection: 'calm', windSpeed: '-5 mph', temperature: '10 °C' }));
    expect(told.observation?.wind).toEqual({ kind: 'missing', speedMps: null });
    expect(fields(told)).toEqual(['windSpeed']);
  });
});

describe('what a direction refers to', () => {
  const from = (told: ReturnType<typeof judge>) =>
    told.observation?.wind.kind === 'blowing' ? told.observation.wind.fromDeg : null;

  it.each([
    ['by the reading', { reference: 'magnetic' }, { declinationDeg: 13 }, 223],
    ['by the configuration', {}, { reference: 'magnetic', declinationDeg: -12 }, 198],
    ['the mounting', {}, { reference: 'relative', mountDeg: 160 }, 10],
    [
      'true by the reading, relative by the configuration',
      { reference: 'true' },
      { reference: 'relative', mountDeg: 9 },
      210,
    ],
  ] as const)('%s', (_, more, directions, expected) => {
    expect(from(judge(reading(more), directions))).toBe(expected);
  });

  it.each([
    ['magnetic', { reference: 'magnetic' }, { mountDeg: 13 }],
    ['relative', { reference: 'relative' }, { declinationDeg: 13 }],
    ['magnetic by the configuration', {}, { reference: 'magnetic' }],
    ['a word that is none', { reference: 'grid' }, {}],
    ['true as a boolean', { reference: true }, {}],
  ] as const)('%s, without what it needs, is refused', (_, more, directions) => {
    const told = judge(reading(more), directions);
    expect(told.observation).toBeNull();
    expect(fields(told)).toEqual([
      'reference' in more && more.reference !== 'magnetic' && more.reference !== 'relative'
        ? 'reference'
        : 'windDirection',
    ]);
  });
});

describe('a reading that is refused', () => {
  it.each([
    [{ station: 'nowhere' }, 'station'],
    [{ station: undefined }, 'station'],
    [{ time: undefined }, 'time'],
    [{ time: '2026-03-02 14:05' }, 'time'],
    [{ time: '2026-03-02T14:05:00' }, 'time'],
    [{ time: 1772476380 }, 'time'],
    // Six minutes ahead of the clock.
    [{ time: '2026-03-02T14:12:00-06:00' }, 'time'],
    [{ windSpeed: 10 }, 'windSpeed'],
    [{ windSpeed: '10' }, 'windSpeed'],
    [{ windSpeed: '10 %' }, 'windSpeed'],
    [{ windSpeed: '1,5 mph' }, 'windSpeed'],
    [{ windSpeed: '' }, 'windSpeed'],
    [{ windSpeed: { value: 10 } }, 'windSpeed'],
    [{ windSpeed: { value: Number.NaN, unit: 'mph' } }, 'windSpeed'],
    [{ windDirection: 361 }, 'windDirection'],
    [{ windDirection: -1 }, 'windDirection'],
    [{ windDirection: 'SW' }, 'windDirection'],
    [{ windDirection: '' }, 'windDirection'],
    [{ windAveraging: '2 months' }, 'windAveraging'],
    [{ pressure: '1013 bar' }, 'pressure'],
    [{ relativeHumidity: 0.4 }, 'relativeHumidity'],
    [{ quality: 'fine' }, 'quality'],
    [{ gust: '20 mph' }, 'gust'],
    [{ windSpeed: null, windDirection: null }, '(reading)'],
  ])('%j names the field %s', (more, field) => {
    const told = judge(reading(more));
    expect(told.observation).toBeNull();
    expect(fields(told)).toEqual([field]);
    expect(told.faults[0]?.message.length).toBeGreaterThan(5);
  });

  it.each([7, null, 'text', [], [[]]])('%j is none', (item) => {
    expect(judge(item).observation).toBeNull();
  });

  it('all faults are told at once', () => {
    expect(fields(judge({ station: 'mast', windSpeed: 1, windGust: 2 }))).toEqual([
      'time',
      'windSpeed',
      'windGust',
    ]);
  });
});

describe('values that are absurd', () => {
  it.each([
    ['windSpeed', '300 mph', { wind: { kind: 'missing', speedMps: null } }],
    ['windGust', '400 mph', { gustMps: null }],
    ['windGust', '5 mph', { gustMps: null }],
    // A dead sensor: 0 % does not exist, and -127 °C is a thermometer that is not there.
    ['relativeHumidity', '0 %', { relativeHumidityPct: null }],
    ['relativeHumidity', '101 %', { relativeHumidityPct: null }],
    ['temperature', '-127 °C', { temperatureC: null }],
    ['pressure', '1 hPa', { pressurePa: null }],
    ['windHeight', '0 m', { windHeightM: 3 }],
    ['windAveraging', '0 s', { windAveragingS: null }],
  ])('%s of %s is missing, told, and takes nothing else with it', (field, value, expected) => {
    const told = judge(reading({ temperature: '10 °C', [field]: value }));
    expect(fields(told)).toEqual([field]);
    expect(told.observation).toMatchObject(expected);
    if (field !== 'windSpeed') expect(told.observation?.wind.kind).toBe('blowing');
  });
});
