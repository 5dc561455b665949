// Reports by hand, of invented stations (KZZZ). What each group means: FMH-1, chapters 5 and 12, as AFMAN 15-111 (12 March
// 2019), section 7.4, words it alike; MPS, KMH and P99 as in ICAO Annex 3, appendix 3 (from memory).

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMetar } from '#sources/stations/metar.ts';

const KT = 1852 / 3600;
const AROUND = Date.UTC(2026, 2, 2, 18, 5);
const CALM_BELOW = 1;
const read = (text: string, aroundMs = AROUND) => readMetar(text, { aroundMs, calmBelowMps: CALM_BELOW });
const utc = (day: number, hour: number, minute: number, month = 2) =>
  Date.UTC(2026, month, day, hour, minute);

describe('the wind of a report', () => {
  it.each([
    ['20014KT', { kind: 'blowing', fromDeg: 200, speedMps: 14 * KT }, null],
    ['20014G22KT', { kind: 'blowing', fromDeg: 200, speedMps: 14 * KT }, 22 * KT],
    ['36010KT', { kind: 'blowing', fromDeg: 360, speedMps: 10 * KT }, null],
    ['00010KT', { kind: 'blowing', fromDeg: 360, speedMps: 10 * KT }, null],
    ['01003KT', { kind: 'blowing', fromDeg: 10, speedMps: 3 * KT }, null],
    ['00000KT', { kind: 'calm' }, null],
    ['00000MPS', { kind: 'calm' }, null],
    ['VRB03KT', { kind: 'variable', speedMps: 3 * KT }, null],
    ['VRB04G16KT', { kind: 'variable', speedMps: 4 * KT }, 16 * KT],
    ['/////KT', { kind: 'missing', speedMps: null }, null],
    ['///12KT', { kind: 'missing', speedMps: 12 * KT }, null],
    ['200//KT', { kind: 'missing', speedMps: null }, null],
    ['200//G30KT', { kind: 'missing', speedMps: null }, 30 * KT],
    ['20014G//KT', { kind: 'blowing', fromDeg: 200, speedMps: 14 * KT }, null],
    ['27007MPS', { kind: 'blowing', fromDeg: 270, speedMps: 7 }, null],
    ['27007G12MPS', { kind: 'blowing', fromDeg: 270, speedMps: 7 }, 12],
    ['27036KMH', { kind: 'blowing', fromDeg: 270, speedMps: 10 }, null],
    ['240105G120KT', { kind: 'blowing', fromDeg: 240, speedMps: 105 * KT }, 120 * KT],
    ['240P99KT', { kind: 'blowing', fromDeg: 240, speedMps: 100 * KT }, null],
    ['24080GP99KT', { kind: 'blowing', fromDeg: 240, speedMps: 80 * KT }, 100 * KT],
  ] as const)('%s', (group, wind, gustMps) => {
    const { reading, faults } = read(`METAR KZZZ 021753Z ${group} 10SM CLR 07/M06 A3028`);
    expect(faults).toEqual([]);
    expect(reading?.wind.kind).toBe(wind.kind);
    if ('speedMps' in wind && wind.speedMps !== null)
      expect(reading?.wind).toHaveProperty('speedMps', expect.closeTo(wind.speedMps, 9));
    if (wind.kind === 'blowing') expect(reading?.wind).toHaveProperty('fromDeg', wind.fromDeg);
    if (wind.kind === 'missing' && wind.speedMps === null)
      expect(reading?.wind).toEqual({ kind: 'missing', speedMps: null });
    if (gustMps === null) expect(reading?.gustMps).toBeNull();
    else expect(reading?.gustMps).toBeCloseTo(gustMps, 9);
  });

  it('a variation beside it changes nothing: 10 kt from 210, between 180 and 240', () => {
    expect(read('KZZZ 021753Z 21010KT 180V240 10SM').reading?.wind).toMatchObject({ fromDeg: 210 });
  });

  it('is missing where the report has none', () => {
    const { reading, faults } = read('KZZZ 021753Z AUTO 10SM CLR 07/M06 A3028');
    expect(reading?.wind).toEqual({ kind: 'missing', speedMps: null });
    expect(faults).toEqual([]);
  });

  it.each(['40005KT', '20014', '2001KT', '20014G10KT', '200250KT', 'KT', '20014G300KT'])(
    '%s never blows as it stands, or loses its gust, and is told where it looks like wind',
    (group) => {
      const { reading, faults } = read(`KZZZ 021753Z ${group} 10SM CLR 07/M06 A3028`);
      expect(reading?.gustMps).toBeNull();
      if (group !== '20014G10KT') expect(reading?.wind).toEqual({ kind: 'missing', speedMps: null });
      expect(faults.map(({ kind }) => kind)).toEqual(group === '20014' ? [] : ['wind-group']);
    },
  );

  it('of a trend forecast is not the wind', () => {
    const told = read('KZZZ 021753Z AUTO CAVOK 07/01 Q1013 BECMG 30020G40KT').reading;
    expect(told).toMatchObject({ wind: { kind: 'missing' }, gustMps: null, thunder: null });
    expect(read('KZZZ 021753Z 20005KT CAVOK 07/01 Q1013 TEMPO 30020G40KT TSRA').reading).toMatchObject({
      wind: { fromDeg: 200 },
      gustMps: null,
      thunder: false,
    });
  });
});

describe('the head of a report', () => {
  it.each([
    ['METAR KZZZ 021753Z 20014KT', false],
    ['SPECI KZZZ 021753Z 20014KT', false],
    ['KZZZ 021753Z 20014KT=', false],
    ['  KZZZ\n 021753Z\t20014KT  ', false],
    ['METAR COR KZZZ 021753Z 20014KT', true],
    ['METAR KZZZ 021753Z COR 20014KT', true],
    ['METAR KZZZ 021753Z AUTO COR 20014KT', true],
    ['METAR KZZZ 021753Z CCA 20014KT', true],
  ])('%j: a correction is %s', (text, corrected) => {
    expect(read(text).reading).toMatchObject({
      stationId: 'KZZZ',
      corrected,
      observedAtMs: utc(2, 17, 53),
      wind: { fromDeg: 200 },
    });
  });

  it.each([
    '',
    'KZZZ',
    'KZZZ 021753Z',
    'KZZZ 021753Z NIL',
    'METAR KZZZ 021753Z NIL=',
    'KZZZ 322553Z 20014KT',
    'KZZZ 022453Z 20014KT',
    'KZZZ 021760Z 20014KT',
    'TAF KZZZ 021753Z 0218/0318 20014KT',
    'kzzz 021753Z 20014KT',
    `KZZZ 021753Z 20014KT RMK ${'X'.repeat(2000)}`,
  ])('%j is no report, and is told', (text) => {
    const { reading, faults } = read(text);
    expect(reading).toBeNull();
    expect(faults).toHaveLength(1);
  });

  it.each([
    ['a report of the last day of the month, on the first', '312353Z', utc(1, 0, 5, 3), utc(31, 23, 53)],
    ['one of the first, some minutes early', '010002Z', utc(31, 23, 58), utc(1, 0, 2, 3)],
    ['the 31st does not exist in February', '312353Z', Date.UTC(2026, 1, 20), Date.UTC(2026, 0, 31, 23, 53)],
    ['new year', '312353Z', Date.UTC(2027, 0, 1, 0, 10), Date.UTC(2026, 11, 31, 23, 53)],
    ['29 February in a leap year', '291200Z', Date.UTC(2028, 2, 1), Date.UTC(2028, 1, 29, 12)],
  ])('%s', (_, time, aroundMs, expected) => {
    expect(read(`KZZZ ${time} 20014KT`, aroundMs).reading?.observedAtMs).toBe(expected);
  });
});

describe('any text', () => {
  const token = fc.oneof(
    fc.constantFrom('METAR', 'SPECI', 'KZZZ', '021753Z', 'AUTO', 'COR', 'RMK', 'PK', 'WND', 'WSHFT', '30'),
    fc.constantFrom('/////KT', '20014KT', 'VRB03KT', '00000KT', 'TSRA', '07/M06', 'A3028', 'T0067', 'TSB12'),
    fc.constantFrom(
      '28045/1715',
      'FROPA',
      'LTG',
      'NIL',
      '///',
      'R04/P1500N',
      'BECMG',
      'M1/4SM',
      '1',
      '1/2SM',
    ),
    fc.string({ maxLength: 12 }),
  );

  it('never throws, and never blows without a group that says so', () => {
    const texts = fc.oneof(
      fc.string({ maxLength: 200 }),
      fc.array(token, { maxLength: 25 }).map((parts) => parts.join(' ')),
      fc.array(token, { maxLength: 25 }).map((parts) => `KZZZ 021753Z ${parts.join(' ')}`),
    );
    fc.assert(
      fc.property(texts, (text) => {
        const wind = read(text).reading?.wind;
        if (wind?.kind === 'blowing') expect(text).toMatch(/\d{3}P?\d{2,3}(?:G\S+)?(?:KT|MPS|KMH)/);
      }),
      { numRuns: 1000 },
    );
  });

  it('blanked wind groups of every form stay missing', () => {
    const blank = fc.constantFrom(
      '/////',
      '//////',
      '///',
      '/',
      '',
      '//KT',
      '/////MPS',
      '/////KMH',
      '/////G//KT',
    );
    fc.assert(
      fc.property(blank, fc.constantFrom('', 'KT', 'MPS'), (a, b) => {
        expect(read(`KZZZ 021753Z AUTO ${a}${b} 10SM CLR`).reading?.wind).toEqual({
          kind: 'missing',
          speedMps: null,
        });
      }),
    );
  });
});
