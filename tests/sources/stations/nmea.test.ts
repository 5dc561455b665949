// Sentences one by one. Marked ones are published examples: the page of gpsd (gpsd.gitlab.io/gpsd/NMEA.html), and the
// documentation of public NMEA packages (go-nmea, the nmea crate); the others are made by hand with their checksum.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checksumOf, readSentence } from '#sources/stations/nmea.ts';

const KT = 1852 / 3600;
const MPH = 1609.344 / 3600;

/** `$body*hh`. */
const sentence = (body: string): string =>
  `$${body}*${checksumOf(body).toString(16).toUpperCase().padStart(2, '0')}`;

describe('published sentences', () => {
  it.each([
    ['$WIMWV,041.1,R,01.0,N,A*16', 41.1, KT],
    ['$WIMWV,214.8,R,0.1,K,A*28', 214.8, 0.1 / 3.6],
    ['$IIMWV,017,R,02.91,N,A*2F', 17, 2.91 * KT],
  ])('%s', (line, angleDeg, mps) => {
    expect(readSentence(line)).toEqual({
      kind: 'wind-angle',
      reference: 'relative',
      angleDeg,
      speedMps: expect.closeTo(mps, 9),
    });
  });

  it.each([
    ['$INMWD,52.7,T,,M,3.5,N,1.8,M*52', 52.7, null, 1.8],
    ['$IIMWD,276.94,T,270.84,M,06.47,N,03.33,M*45', 276.94, 270.84, 3.33],
  ])('%s', (line, trueDeg, magneticDeg, speedMps) => {
    expect(readSentence(line)).toEqual({ kind: 'wind-direction', trueDeg, magneticDeg, speedMps });
  });

  it('one whose 12 kt and 40 m/s contradict each other is a fault', () => {
    expect(readSentence('$WIMWD,10.1,T,10.1,M,12,N,40,M*5D')).toEqual({ kind: 'fault', fault: 'fields' });
  });

  it.each([
    ['$SDXDR,C,23.15,C,WTHI*70', { kind: 'temperature', name: 'WTHI', value: 23.15 }],
    ['$IIXDR,P,1.02481,B,Barometer*29', { kind: 'pressure', name: 'Barometer', value: 102_481 }],
    ['$WIXDR,C,022.0,C,,*52', { kind: 'temperature', name: '', value: 22 }],
  ])('%s', (line, value) => {
    expect(readSentence(line)).toEqual({ kind: 'transducers', values: [value] });
  });
});

describe('wind at an angle', () => {
  const mwv = (rest: string) => readSentence(sentence(`WIMWV,${rest}`));

  it.each([
    ['0,R,5,M,A', 'relative', 0, 5],
    ['360.0,T,5,M,A', 'theoretical', 360, 5],
    ['90,R,18,K,A', 'relative', 90, 5],
    ['90,R,10,N,A', 'relative', 90, 10 * KT],
    ['90,R,10,S,A', 'relative', 90, 10 * MPH],
    ['90,R,0,N,A', 'relative', 90, 0],
    [',R,5,M,A', 'relative', null, 5],
    ['90,R,,N,A', 'relative', 90, null],
    ['90,R,,,A', 'relative', 90, null],
    [',R,,N,A', 'relative', null, null],
    // The status alone vouches for the values.
    ['90,R,5,M,V', 'relative', null, null],
    ['90,R,5,M,', 'relative', null, null],
    ['000,R,000,N,V', 'relative', null, null],
    [',T,,,V', 'theoretical', null, null],
  ])('%s', (rest, reference, angleDeg, mps) => {
    expect(mwv(rest)).toEqual({
      kind: 'wind-angle',
      reference,
      angleDeg,
      speedMps: mps === null ? null : expect.closeTo(mps, 9),
    });
  });

  it.each([
    '90,X,5,M,A',
    '90,,5,M,A',
    '90,R,5,Q,A',
    '90,R,5,,A',
    '361,R,5,M,A',
    '-5,R,5,M,A',
    '90,R,-5,M,A',
    '9O,R,5,M,A',
    '90,R,1e3,M,A',
    '90,R,NaN,M,A',
    '90,R,5,M,B',
    '90,R,5,constructor,A',
    '',
  ])('%s is a fault, never a wind', (rest) => {
    expect(mwv(rest)).toEqual({ kind: 'fault', fault: 'fields' });
  });
});

describe('wind by direction', () => {
  const mwd = (rest: string) => readSentence(sentence(`WIMWD,${rest}`));

  it.each([
    ['210,T,197,M,10,N,5.1,M', 210, 197, 5.1],
    ['210,T,,M,10,N,,M', 210, null, 10 * KT],
    [',T,197,M,,N,5,M', null, 197, 5],
    [',,,,,,,', null, null, null],
    ['360,T', 360, null, null],
    ['0,T,,,0,N,0,M', 0, null, 0],
  ])('%s', (rest, trueDeg, magneticDeg, mps) => {
    expect(mwd(rest)).toEqual({
      kind: 'wind-direction',
      trueDeg,
      magneticDeg,
      speedMps: mps === null ? null : expect.closeTo(mps, 9),
    });
  });

  it.each(['210,M,197,T,10,N,5.1,M', '210,T,197,M,10,K,5.1,M', '400,T,,M,10,N,,M', '210,T,,M,-1,N,,M'])(
    '%s is a fault',
    (rest) => {
      expect(mwd(rest)).toEqual({ kind: 'fault', fault: 'fields' });
    },
  );
});

describe('transducers', () => {
  it('several in one sentence; blank ones and those of another kind are passed over', () => {
    const line = sentence('YXXDR,C,19.5,C,AIR,H,45.0,P,RH,P,101320,P,BARO,A,12,D,PITCH,C,,C,SEA,C,66,F,OLD');
    expect(readSentence(line)).toEqual({
      kind: 'transducers',
      values: [
        { kind: 'temperature', name: 'AIR', value: 19.5 },
        { kind: 'humidity', name: 'RH', value: 45 },
        { kind: 'pressure', name: 'BARO', value: 101_320 },
      ],
    });
  });

  it('a value that is no number is a fault', () => {
    expect(readSentence(sentence('YXXDR,C,19,5,C,AIR'))).toEqual({ kind: 'transducers', values: [] });
    expect(readSentence(sentence('YXXDR,C,x,C,AIR'))).toEqual({ kind: 'fault', fault: 'fields' });
  });
});

describe('the frame of a sentence', () => {
  it.each([
    ['  $WIMWV,041.1,R,01.0,N,A*16\r', 'wind-angle'],
    ['\\s:mast,c:1772476380*0F\\$WIMWV,041.1,R,01.0,N,A*16', 'wind-angle'],
    ['$GPGGA,,,,,,0,,,,,,,,*66', 'other'],
    [sentence('PXYZ,1,2'), 'other'],
  ])('%j is read', (line, kind) => {
    expect(readSentence(line).kind).toBe(kind);
  });

  it.each([
    ['$WIMWV,041.1,R,01.0,N,A*17', 'checksum'],
    ['$WIMWV,241.1,R,01.0,N,A*16', 'checksum'],
    ['$WIMWV,041.1,R,01.0,N,A', 'no-checksum'],
    ['WIMWV,041.1,R,01.0,N,A*16', 'no-sentence'],
    ['', 'no-sentence'],
    ['$', 'no-checksum'],
    ['$*00', 'no-sentence'],
    ['$WIMWV,041.1,R,01.0,N,A*1', 'no-sentence'],
  ])('%j is a fault: %s', (line, fault) => {
    expect(readSentence(line)).toEqual({ kind: 'fault', fault });
  });

  it('any text never throws; any with a good checksum blows only by a status of A', () => {
    const field = fc.oneof(
      fc.constantFrom('', 'A', 'V', 'R', 'T', 'N', 'M', 'K', '090', '5.5', '0', '000'),
      fc.string({ maxLength: 4 }),
    );
    const body = fc
      .tuple(fc.constantFrom('WIMWV', 'WIMWD', 'WIXDR', 'GPRMC'), fc.array(field, { maxLength: 9 }))
      .map(([address, fields]) => sentence(`${address},${fields.join(',')}`));
    fc.assert(
      fc.property(fc.oneof(fc.string(), body), (line) => {
        const read = readSentence(line);
        if (read.kind !== 'wind-angle' || read.speedMps === null) return;
        expect(line).toMatch(/,A\s*\*/);
        expect(read.speedMps >= 0).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});
