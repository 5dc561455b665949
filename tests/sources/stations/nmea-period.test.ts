// Sentences joined into one observation for each averaging period. Means of directions: unit vectors; 350 and 10 make 360.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DirectionSettings } from '#core/watch/station-source.ts';
import { meanWind } from '#sources/stations/mean-wind.ts';
import { checksumOf } from '#sources/stations/nmea.ts';
import { type Closed, makeNmeaPeriods } from '#sources/stations/nmea-period.ts';
import { station as sourceStation } from './fake-stations.ts';

const START = Date.UTC(2026, 2, 2, 18, 20);
const NORTH: DirectionSettings = { reference: 'true', declinationDeg: null, mountDeg: null };
const { station } = sourceStation({ kind: 'posted' }, { id: 'mast', windHeightM: 3, windAveragingS: 120 });

const sentence = (body: string): string =>
  `$${body}*${checksumOf(body).toString(16).toUpperCase().padStart(2, '0')}`;
const mwv = (angle: string | number, mps: string | number, reference = 'R', status = 'A') =>
  sentence(`WIMWV,${angle},${reference},${mps},M,${status}`);
const mwd = (trueDeg: string | number, magnetic: string | number, mps: number) =>
  sentence(`WIMWD,${trueDeg},T,${magnetic},M,,N,${mps},M`);

/** Lines ten seconds apart from the beginning of a period; the next period closes it. */
function period(
  lines: readonly string[],
  directions: Partial<DirectionSettings> = {},
  more: { transducers?: readonly string[]; everyMs?: number } = {},
): Closed {
  const { transducers = [], everyMs = 10_000 } = more;
  const periods = makeNmeaPeriods({ station, directions: { ...NORTH, ...directions }, transducers });
  for (const [i, line] of lines.entries()) {
    expect(periods.take(line, START + i * everyMs).closed).toBeNull();
  }
  const { closed } = periods.take(sentence('GPGGA,1'), START + 120_000);
  if (closed === null) throw new Error('not closed');
  return closed;
}

const twelve = (line: (i: number) => string): string[] => Array.from({ length: 12 }, (_, i) => line(i));
const kinds = ({ faults }: Closed) => faults.map(({ kind, where }) => `${kind} ${where}`);

describe('an averaging period', () => {
  it('becomes one observation at its end, with its mean, its largest gust and its mast', () => {
    const { observation, faults } = period(twelve((i) => mwd(i % 2 === 0 ? 350 : 10, '', i === 5 ? 15 : 4)));
    expect(faults).toEqual([]);
    expect(observation).toMatchObject({
      station: 'mast',
      observedAtMs: START + 120_000,
      receivedAtMs: START + 120_000,
      wind: { kind: 'blowing', fromDeg: expect.closeTo(360, 6), speedMps: expect.closeTo(59 / 12, 9) },
      windHeightM: 3,
      windAveragingS: 120,
      gustMps: 15,
      quality: 'unverified',
      corrects: false,
    });
    expect(observation?.raw).toMatch(/^\$WIMWD,10,T/);
  });

  it('that covers less than half of itself has no wind, but its gust was felt', () => {
    const { observation } = period([mwd(200, '', 4), mwd(200, '', 9), mwd(200, '', 5)]);
    expect(observation?.wind).toEqual({ kind: 'missing', speedMps: null });
    expect(observation?.gustMps).toBe(9);
  });

  it('of two samples far apart is a mean without a gust', () => {
    const { observation } = period([mwd(200, '', 4), mwd(200, '', 6)], {}, { everyMs: 100_000 });
    expect(observation).toMatchObject({
      wind: { fromDeg: expect.closeTo(200, 9), speedMps: 5 },
      gustMps: null,
    });
  });

  it('without anything told is no observation', () => {
    expect(period([sentence('GPGGA,1'), '', 'noise'])).toMatchObject({
      observation: null,
      faults: [{ kind: 'no-sentence', count: 2 }],
    });
  });

  it('closed early, as the line goes dead, ends when it was closed', () => {
    const periods = makeNmeaPeriods({ station, directions: NORTH, transducers: [] });
    for (const i of [0, 1, 2, 3, 4, 5, 6, 7]) periods.take(mwd(200, '', 4), START + i * 10_000);
    expect(periods.close(START + 75_000)?.observation).toMatchObject({
      observedAtMs: START + 75_000,
      wind: { fromDeg: expect.closeTo(200, 9) },
    });
    expect(periods.close(START + 76_000)).toBeNull();
  });

  it('a clock set back begins another period', () => {
    const periods = makeNmeaPeriods({ station, directions: NORTH, transducers: [] });
    periods.take(mwd(200, '', 4), START);
    const { closed } = periods.take(mwd(200, '', 4), START - 3_600_000);
    expect(closed?.observation?.observedAtMs).toBe(START);
  });
});

describe('directions of an instrument', () => {
  it.each(['R', 'T'])('MWV,%s is from the mounting: 300 plus 100 is 40 true', (reference) => {
    const { observation, faults } = period(
      twelve(() => mwv(300, 4, reference)),
      { mountDeg: 100 },
    );
    expect(observation?.wind).toMatchObject({ fromDeg: expect.closeTo(40, 6) });
    expect(faults).toEqual([]);
  });

  it.each(['R', 'T'])('MWV,%s is refused where the mounting is not known, and told', (reference) => {
    const closed = period(twelve(() => mwv(300, 4, reference)));
    expect(closed.observation?.wind).toEqual({ kind: 'missing', speedMps: 4 });
    expect(kinds(closed)).toEqual(['no-mount windDirection']);
  });

  it('MWD needs no mounting, and its magnetic direction needs a declination', () => {
    const bearing = (closed: Closed) => closed.observation?.wind;
    expect(bearing(period(twelve(() => mwd(210, 197, 4))))).toMatchObject({
      fromDeg: expect.closeTo(210, 6),
    });
    const magnetic = twelve(() => mwd('', 197, 4));
    expect(bearing(period(magnetic, { declinationDeg: 13 }))).toMatchObject({
      fromDeg: expect.closeTo(210, 6),
    });
    const refused = period(magnetic, { mountDeg: 13 });
    expect(bearing(refused)).toEqual({ kind: 'missing', speedMps: 4 });
    expect(kinds(refused)).toEqual(['no-declination windDirection']);
  });

  it('one source alone counts, MWD before MWV,R before MWV,T: they are never mixed', () => {
    const mixed = twelve((i) => [mwd(200, '', 4), mwv(300, 9), mwv(100, 20, 'T')][i % 3] as string);
    expect(period(mixed, { mountDeg: 0 }).observation).toMatchObject({
      wind: { fromDeg: expect.closeTo(200, 6), speedMps: 4 },
      gustMps: 4,
    });
    const angles = twelve((i) => [mwv(300, 9), mwv(100, 20, 'T')][i % 2] as string);
    expect(period(angles, { mountDeg: 0 }).observation?.wind).toMatchObject({
      fromDeg: expect.closeTo(300, 6),
      speedMps: 9,
    });
  });
});

describe('blanks, calm and turning winds', () => {
  it('nothing told gives no direction (weewx#849: an hour of nulls gave 90)', () => {
    const nothing = { wind: { kind: 'missing', speedMps: null }, gustMps: null };
    expect(meanWind([], 0.5)).toEqual(nothing);
    expect(
      meanWind(
        Array.from({ length: 60 }, () => ({ speedMps: null, fromDeg: null })),
        0.5,
      ),
    ).toEqual(nothing);
  });

  it('a calm period is calm (Daveiano/weewx-wdc#311: it crashed)', () => {
    const calm = Array.from({ length: 60 }, () => ({ speedMps: 0, fromDeg: null }));
    expect(meanWind(calm, 0.5)).toEqual({ wind: { kind: 'calm' }, gustMps: 0 });
  });

  it('the mean across north is north (rob42/freeboard-server#28), by the published means of directions', () => {
    const mean = (...degrees: number[]) => {
      const { wind } = meanWind(
        degrees.map((fromDeg) => ({ speedMps: 5, fromDeg })),
        0.5,
      );
      return wind.kind === 'blowing' ? wind.fromDeg : wind.kind;
    };
    expect(mean(350, 10)).toBeCloseTo(360, 6);
    expect(mean(0, 360)).toBeCloseTo(360, 6);
    expect(mean(355, 5, 15)).toBeCloseTo(5, 6);
    expect(mean(0, 0, 90)).toBeCloseTo(26.5651, 4);
    expect(mean(0, 180)).toBe('variable');
    expect(mean(0, 90, 180, 270)).toBe('variable');
  });

  it('all invalid is missing, not calm: one status of V for each sample', () => {
    const { observation } = period(
      twelve(() => mwv('000', '000', 'R', 'V')),
      { mountDeg: 0 },
    );
    expect(observation).toMatchObject({ wind: { kind: 'missing', speedMps: null }, gustMps: null });
  });

  it('zeros that are valid are calm', () => {
    expect(
      period(
        twelve(() => mwv(0, 0)),
        { mountDeg: 0 },
      ).observation?.wind,
    ).toEqual({ kind: 'calm' });
  });

  it('half of the samples invalid is missing; fewer is a mean of the others', () => {
    const some = (invalid: number) =>
      period(
        twelve((i) => (i % 12 < invalid ? mwv(90, 30, 'R', 'V') : mwv(90, 4))),
        { mountDeg: 0 },
      ).observation?.wind;
    expect(some(6)).toEqual({ kind: 'missing', speedMps: null });
    expect(some(5)).toMatchObject({ kind: 'blowing', speedMps: 4 });
  });

  it('directions all round are variable', () => {
    const round = twelve((i) => mwd(i * 30, '', 4));
    expect(period(round).observation?.wind).toEqual({ kind: 'variable', speedMps: 4 });
  });

  it('a vane that feels nothing points anywhere: calm samples give no direction', () => {
    const mostly = twelve((i) => (i < 4 ? mwd(90, '', 0.2) : mwd(200, '', 3)));
    expect(period(mostly).observation?.wind).toMatchObject({ fromDeg: expect.closeTo(200, 6) });
  });

  it('an absurd speed is a blank, and told', () => {
    const closed = period(twelve((i) => mwd(200, '', i === 3 ? 500 : 4)));
    expect(closed.observation).toMatchObject({ wind: { speedMps: 4 }, gustMps: 4 });
    expect(kinds(closed)).toEqual(['out-of-range windSpeed']);
  });

  it('no samples blow only where samples did, and never faster than the fastest', () => {
    const sample = fc.record({
      speedMps: fc.option(fc.double({ min: 0, max: 112, noNaN: true })),
      fromDeg: fc.option(fc.double({ min: 0, max: 360, noNaN: true })),
    });
    fc.assert(
      fc.property(fc.array(sample, { maxLength: 20 }), (samples) => {
        const { wind, gustMps } = meanWind(samples, 0.5);
        if (wind.kind !== 'blowing') return;
        const speeds = samples.map(({ speedMps }) => speedMps ?? 0);
        expect(samples.some(({ speedMps, fromDeg }) => speedMps !== null && fromDeg !== null)).toBe(true);
        expect(wind.speedMps).toBeLessThanOrEqual(Math.max(...speeds) + 1e-9);
        if (gustMps !== null) expect(gustMps).toBe(Math.max(...speeds));
      }),
    );
  });
});

describe('transducers', () => {
  const xdr = (rest: string) => sentence(`YXXDR,${rest}`);
  const AIR = 'C,19.5,C,AIR,H,45.0,P,RH,P,1.0132,B,BARO';

  it('give temperature, humidity and pressure without any wind', () => {
    const { observation } = period([xdr(AIR), xdr('C,20.5,C,AIR')]);
    expect(observation).toMatchObject({
      temperatureC: 20,
      relativeHumidityPct: 45,
      pressurePa: expect.closeTo(101_320, 6),
      wind: { kind: 'missing', speedMps: null },
    });
  });

  it('two of one kind are not averaged: told, and missing, until one is named', () => {
    const lines = [xdr(AIR), xdr('C,80,C,ENGINE')];
    const closed = period(lines);
    expect(closed.observation?.temperatureC).toBeNull();
    expect(kinds(closed)).toEqual(['several-transducers temperature']);
    const named = period(lines, {}, { transducers: ['AIR', 'RH'] });
    expect(named.observation).toMatchObject({
      temperatureC: 19.5,
      relativeHumidityPct: 45,
      pressurePa: null,
    });
    expect(named.faults).toEqual([]);
  });

  it.each(['H,0,P,RH', 'H,101,P,RH', 'C,-127,C,AIR', 'P,1013,B,BARO'])(
    '%s is out of range: missing',
    (rest) => {
      const closed = period([xdr(rest)]);
      expect(closed.observation).toBeNull();
      expect(kinds(closed)[0]).toMatch(/^out-of-range/);
    },
  );
});
