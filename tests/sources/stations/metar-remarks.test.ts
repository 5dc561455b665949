// Reports by hand, of invented stations (KZZZ). What each group means: FMH-1, chapters 5 and 12, as AFMAN 15-111 (12 March
// 2019), section 7.4, words it alike.

import { describe, expect, it } from 'vitest';
import { metarObservation, readMetar } from '#sources/stations/metar.ts';

const KT = 1852 / 3600;
const AROUND = Date.UTC(2026, 2, 2, 18, 5);
const CALM_BELOW = 1;
const read = (text: string, aroundMs = AROUND) => readMetar(text, { aroundMs, calmBelowMps: CALM_BELOW });
const utc = (day: number, hour: number, minute: number, month = 2) =>
  Date.UTC(2026, month, day, hour, minute);

describe('times in the remarks', () => {
  const remark = (time: string, text: string, aroundMs = AROUND) =>
    read(`METAR KZZZ ${time} 20014KT 10SM 07/M06 A3028 RMK AO2 ${text}`, aroundMs);

  it.each([
    ['the minute alone is of this hour', '021753Z', 'WSHFT 30 FROPA', utc(2, 17, 30)],
    ['the minute of the report itself', '021753Z', 'WSHFT 53', utc(2, 17, 53)],
    ['a later minute is of the hour before', '021753Z', 'WSHFT 55', utc(2, 16, 55)],
    ['with its hour', '021753Z', 'WSHFT 1715', utc(2, 17, 15)],
    ['with the hour before', '021805Z', 'WSHFT 1755 FROPA', utc(2, 17, 55)],
    ['across midnight, by the minute', '020005Z', 'WSHFT 50', utc(1, 23, 50)],
    ['across midnight, by the hour', '020005Z', 'WSHFT 2350', utc(1, 23, 50)],
    ['across the month, by the hour', '010005Z', 'WSHFT 2350', Date.UTC(2026, 1, 28, 23, 50)],
  ])('wind shift: %s', (_, time, text, expected) => {
    expect(remark(time, text).reading?.windShiftAtMs).toBe(expected);
  });

  it.each([
    ['021753Z', 'PK WND 28045/15', 280, 45, utc(2, 17, 15)],
    ['021753Z', 'PK WND 28045/1715', 280, 45, utc(2, 17, 15)],
    ['021805Z', 'PK WND 28045/1755', 280, 45, utc(2, 17, 55)],
    ['020053Z', 'PK WND 36032/2355', 360, 32, utc(1, 23, 55)],
    ['020005Z', 'PK WND 33047/58', 330, 47, utc(1, 23, 58)],
    ['021753Z', 'PK WND 280105/15', 280, 105, utc(2, 17, 15)],
  ])('%s %s: from %d, %d kt', (time, text, fromDeg, knots, atMs) => {
    const peak = remark(time, text).reading?.peakWind;
    expect(peak).toEqual({ atMs, fromDeg, speedMps: knots * KT });
  });

  it.each(['WSHFT 1410', 'PK WND 28045/1410', 'WSHFT 2570', 'PK WND 40045/15', 'WSHFT 1761'])(
    '%s was misread: told, and left out',
    (text) => {
      const { reading, faults } = remark('021753Z', text);
      expect(reading).toMatchObject({ windShiftAtMs: null, peakWind: null });
      expect(faults.map(({ kind }) => kind)).toEqual(['remark']);
    },
  );

  // Gust: the ten minutes before (FMH-1, 5.4.4); peak wind: since the hourly report before (5.4.5).
  it.each([
    ['20014KT RMK PK WND 28031/48', 31, null],
    ['20014KT RMK PK WND 28031/43', 31, null],
    ['20014G35KT RMK PK WND 28031/48', 35, null],
    ['20014KT RMK PK WND 28031/42', null, utc(2, 17, 42)],
    ['20014G22KT RMK PK WND 28031/15', 22, utc(2, 17, 15)],
    ['20014G22KT RMK PK WND 28031/1655', 22, utc(2, 16, 55)],
    ['20014KT', null, null],
  ])('%s: gust of now %s kt, a peak of before at %s', (text, gustKt, peakAtMs) => {
    const { reading } = read(`KZZZ 021753Z ${text}`);
    if (reading === null) throw new Error('not read');
    const { gustMps, peak = null } = metarObservation(reading, { station: 'airport', receivedAtMs: AROUND });
    expect(gustMps).toEqual(gustKt === null ? null : expect.closeTo(gustKt * KT, 9));
    expect(peak).toEqual(peakAtMs && { atMs: peakAtMs, speedMps: expect.closeTo(31 * KT, 9) });
  });
});

describe('thunder', () => {
  it.each([
    ['20014KT 3SM TSRA BKN020CB', true],
    ['20014KT 3SM +TSRAGR BKN020CB', true],
    ['20014KT 3SM -TSRA', true],
    ['20014KT 10SM TS BKN020CB', true],
    ['20014KT 10SM VCTS', true],
    ['AUTO 20014KT 10SM RETS', true],
    // DSNT is beyond 10 statute miles, VC from 5 to 10 (FMH-1, 12.7.1 on lightning; from memory). Alone it raises nothing,
    // and clears nothing.
    ['20014KT 10SM CLR RMK LTG DSNT W', null],
    ['20014KT 10SM CLR RMK AO2 OCNL LTGICCG DSNT NE-SE AND SW T00671061', null],
    ['AUTO 20014KT 10SM CLR RMK AO2 LTG DSNT ALQDS', null],
    ['AUTO 20014KT 10SM CLR RMK AO2 LTG DSNT W TSNO', null],
    ['AUTO 20014KT 10SM CLR RMK LTG DSNT W', null],
    ['20014KT 10SM CLR RMK LTG DSNT N THRU E', null],
    ['20014KT 10SM CLR RMK LTG DSNT N THRU E AND OHD', true],
    ['20014KT 10SM CLR RMK LTG DSNT N TO E AND VC S', true],
    ['20014KT 10SM CLR RMK LTG', true],
    ['20014KT 10SM CLR RMK LTGCG W', true],
    ['20014KT 10SM CLR RMK LTG VC NE', true],
    ['20014KT 10SM CLR RMK LTG DSNT W AND VC NE', true],
    ['20014KT 10SM CLR RMK LTG DSNT W AND VCNE', true],
    ['20014KT 10SM CLR RMK LTG DSNT AND OHD', true],
    ['20014KT 10SM CLR RMK FRQ LTGIC DSNT W OCNL LTGCG N', true],
    ['20014KT 10SM CLR RMK LTG ALQDS DSNT', true],
    ['20014KT 10SM CLR RMK LTG DSNT W TS OHD', true],
    ['AUTO 20014KT 10SM CLR RMK AO2 OCNL LTGICCG OHD TS OHD MOV E', true],
    ['AUTO 20014KT 10SM CLR RMK AO2 TSB12E30', true],
    ['AUTO 20014KT 10SM CLR RMK AO2 TSE1705', true],
    ['20014KT 10SM CLR', false],
    ['AUTO 20014KT 10SM CLR RMK AO2', false],
    ['20014KT 10SM SHRA BKN020CB RMK AO2', false],
    ['AUTO 20014KT 10SM CLR RMK AO2 TSNO', null],
    ['20014KT 10SM CLR RMK TSNO', null],
    ['AUTO 20014KT 10SM CLR RMK AO1', null],
    ['AUTO 20014KT 10SM CLR', null],
    ['AUTO 20014KT 10SM TSRA RMK AO2 TSNO', true],
  ])('%s: %s', (text, expected) => {
    expect(read(`METAR KZZZ 021753Z ${text}`).reading?.thunder).toBe(expected);
  });
});

describe('temperature, dew point, humidity and pressure', () => {
  const weather = (text: string) => read(`KZZZ 021753Z 20014KT 10SM CLR ${text}`);

  it.each([
    ['07/M06 A3028 RMK AO2 T00671061', 6.7, -6.1],
    ['07/M06 A3028', 7, -6],
    ['M01/M02 A3028 RMK AO2 T10061017', -0.6, -1.7],
    ['M00/M00 A3028 RMK AO2 T10041004', -0.4, -0.4],
    ['07/ A3028 RMK AO2 T0067', 6.7, null],
    ['/////', null, null],
    ['A3028', null, null],
  ])('%s', (text, temperatureC, dewPointC) => {
    expect(weather(text).reading).toMatchObject({ temperatureC, dewPointC });
  });

  it('humidity comes from tenths of a degree: 39.6 % at 6.7 and -6.1 °C', () => {
    // KFLG, 20 February 2024 17:57Z, as the NWS API gave it: 39.59 %. Magnus constants differ by less than 0.2 %.
    expect(weather('07/M06 A3028 RMK AO2 T00671061').reading?.relativeHumidityPct).toBeCloseTo(39.59, 0);
  });

  it('a dew point above the temperature is told, and gives no humidity', () => {
    const { reading, faults } = weather('07/12 A3028');
    expect(reading?.relativeHumidityPct).toBeNull();
    expect(faults.map(({ kind }) => kind)).toEqual(['dew-point-above-temperature']);
  });

  it('tenths that stray from the whole degrees are told and not believed', () => {
    const { reading, faults } = weather('07/M06 A3028 RMK T06700061');
    expect(reading?.temperatureC).toBe(7);
    expect(faults.map(({ where }) => where)).toContain('temperature');
  });

  it.each([
    // 30.28 inHg at 3386.389 Pa (NIST SP 811); the API told 102540 Pa for this report, rounded to 10 Pa.
    ['07/M06 A3028', 102_540],
    ['07/M06 Q1013', 101_300],
    ['07/M06 Q////', null],
    ['07/M06 A0001', null],
  ])('%s: %s Pa', (text, pa) => {
    const { reading } = weather(text);
    if (pa === null) expect(reading?.pressurePa).toBeNull();
    else expect(Math.abs((reading?.pressurePa ?? 0) - pa)).toBeLessThanOrEqual(5);
  });
});

describe('a report as an observation', () => {
  it('has its own time, 10 m, two minutes, and is unverified', () => {
    const text = 'SPECI KZZZ 021753Z COR 20014G22KT 3SM TSRA 07/M06 A3028 RMK AO2 PK WND 21030/41 WSHFT 35';
    const { reading } = read(text);
    if (reading === null) throw new Error('not read');
    const observation = metarObservation(reading, { station: 'airport', receivedAtMs: AROUND });
    expect(observation).toMatchObject({
      station: 'airport',
      observedAtMs: utc(2, 17, 53),
      receivedAtMs: AROUND,
      windHeightM: 10,
      windAveragingS: 120,
      thunder: true,
      windShiftAtMs: utc(2, 17, 35),
      quality: 'unverified',
      corrects: true,
      raw: text,
    });
    expect(observation.gustMps).toBeCloseTo(22 * KT, 9);
    expect(observation.peak).toEqual({ atMs: utc(2, 17, 41), speedMps: expect.closeTo(30 * KT, 9) });
  });
});
