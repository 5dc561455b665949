// Index lines and byte ranges. The form of the lines is wgrib2's (`n:byte:d=YYYYMMDDHH:element:level:forecast:qualifier`), the
// contents are invented.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readIndex } from '#sources/grib/index-lines.ts';
import { planRanges, rangeHeader } from '#sources/grib/plan-ranges.ts';
import { isWantedLine } from '#sources/grib/wanted-lines.ts';

const INDEX = `1:0:d=2026030406:CAPE:surface:24 hour fcst:
2:1000:d=2026030406:TMP:2 m above ground:24 hour fcst:
3:3000:d=2026030406:TMP:2 m above ground:24 hour fcst:ens std dev
4:3500:d=2026030406:MIXHT:entire atmosphere:24 hour fcst:
5:9000:d=2026030406:APCP:surface:12-24 hour acc fcst:prob >0.254:prob fcst 255/255
6:12000:d=2026030406:APCP:surface:12-24 hour acc fcst:prob >2.54:prob fcst 255/255
7:13000:d=2026030406:WIND:80 m above ground:24 hour fcst:
8.1:20000:d=2026030406:UGRD:10 m above ground:24 hour fcst:
8.2:20000:d=2026030406:VGRD:10 m above ground:24 hour fcst:
9:26000:d=2026030406:TSTM:surface:23-24 hour acc fcst:probability forecast
`;

describe('an index', () => {
  const entries = readIndex(INDEX);

  it('says where each message begins and ends', () => {
    expect(entries.map(({ message, firstByte, lastByte }) => [message, firstByte, lastByte])).toEqual([
      [1, 0, 999],
      [2, 1000, 2999],
      [3, 3000, 3499],
      [4, 3500, 8999],
      [5, 9000, 11_999],
      [6, 12_000, 12_999],
      [7, 13_000, 19_999],
      [8, 20_000, 25_999],
      [8, 20_000, 25_999],
      [9, 26_000, null],
    ]);
    expect(entries[4]).toEqual({
      message: 5,
      firstByte: 9000,
      lastByte: 11_999,
      referenceMs: Date.UTC(2026, 2, 4, 6),
      element: 'APCP',
      level: 'surface',
      forecast: '12-24 hour acc fcst',
      qualifiers: ['prob >0.254', 'prob fcst 255/255'],
    });
  });

  it('with carriage returns, and without an end of the last line, reads the same', () => {
    expect(readIndex(INDEX.trimEnd().replaceAll('\n', '\r\n'))).toEqual(entries);
    expect(readIndex('')).toEqual([]);
  });

  it.each([
    ['<html>', 'an index line reads "<html>"'],
    ['1:0:d=2026130406:TMP:surface:anl:', 'an index line reads'],
    ['1:0:d=2026030424:TMP:surface:anl:', 'an index line reads'],
    ['1:-5:d=2026030406:TMP:surface:anl:', 'an index line reads'],
    ['1:0:d=2026030406:TMP', 'an index line reads'],
    [
      '1:0:d=2026030406:TMP:a:b:\n2:0:d=2026030406:TMP:a:b:',
      'message 2 of an index is out of order (byte 26)',
    ],
    ['1:9:d=2026030406:TMP:a:b:\n2:5:d=2026030406:TMP:a:b:', 'message 2 of an index is out of order'],
    ['2:0:d=2026030406:TMP:a:b:\n1:5:d=2026030406:TMP:a:b:', 'message 1 of an index is out of order'],
    ['1:0:d=2026030406:TMP:a:b:\n1:5:d=2026030406:TMP:a:b:', 'message 1 of an index is out of order'],
    [
      Array.from({ length: 20_001 }, (_, n) => `${n + 1}:${n}:d=2026030406:T:a:b:`).join('\n'),
      'an index of more than 20000 lines',
    ],
  ])('is refused whole with a line that cannot be trusted, case %#', (text, words) => {
    expect(() => readIndex(text)).toThrow(words);
  });

  it('lines that may be ours are those of the one forecast at our levels, and two kinds of probability', () => {
    expect(entries.filter(isWantedLine).map(({ message, element }) => `${message} ${element}`)).toEqual([
      '2 TMP',
      '4 MIXHT',
      '5 APCP',
      '8 UGRD',
      '8 VGRD',
      '9 TSTM',
    ]);
  });
});

describe('ranges', () => {
  const entries = readIndex(INDEX);
  const plan = (gapBytes: number, mostBytes: number): string[] =>
    planRanges(entries, isWantedLine, { gapBytes, mostBytes }).map(
      (range) => `${rangeHeader(range)} ${range.entries.map(({ message }) => message).join(',')}`,
    );

  it('neighbours are asked for together, and a small gap is read', () => {
    expect(plan(0, 100_000)).toEqual([
      'bytes=1000-2999 2',
      'bytes=3500-11999 4,5',
      'bytes=20000-25999 8,8',
      'bytes=26000- 9',
    ]);
    expect(plan(500, 100_000)).toEqual(['bytes=1000-11999 2,4,5', 'bytes=20000-25999 8,8', 'bytes=26000- 9']);
    expect(plan(8000, 100_000)).toEqual(['bytes=1000-25999 2,4,5,8,8', 'bytes=26000- 9']);
  });

  it('no range is larger than allowed, and a message that is larger is refused', () => {
    expect(plan(500, 8500)).toEqual([
      'bytes=1000-8999 2,4',
      'bytes=9000-11999 5',
      'bytes=20000-25999 8,8',
      'bytes=26000- 9',
    ]);
    expect(() => plan(0, 5999)).toThrow('message 8 has 6000 bytes, allowed 5999 (byte 20000)');
  });

  it('whatever the index: every wanted message lies in one range, ranges do not overlap, and hold their bounds', () => {
    const lengths = fc.array(fc.tuple(fc.integer({ min: 1, max: 900 }), fc.boolean()), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(
        lengths,
        fc.integer({ min: 0, max: 2000 }),
        fc.integer({ min: 900, max: 4000 }),
        (parts, gapBytes, mostBytes) => {
          let firstByte = 0;
          const lines = parts.map(([length], n) => {
            const line = `${n + 1}:${firstByte}:d=2026030406:TMP:a:b:`;
            firstByte += length;
            return line;
          });
          const isWanted = ({ message }: { message: number }): boolean => parts[message - 1]?.[1] ?? false;
          const ranges = planRanges(readIndex(lines.join('\n')), isWanted, { gapBytes, mostBytes });
          const wanted = parts.flatMap(([, is], n) => (is ? [n + 1] : []));
          expect(ranges.flatMap((range) => range.entries.map(({ message }) => message))).toEqual(wanted);
          let before = -1;
          for (const range of ranges) {
            expect(range.firstByte).toBeGreaterThan(before);
            const last = range.lastByte ?? range.firstByte;
            expect(last - range.firstByte + 1).toBeLessThanOrEqual(mostBytes);
            for (const entry of range.entries)
              expect(entry.firstByte).toBeGreaterThanOrEqual(range.firstByte);
            for (const entry of range.entries) expect(entry.lastByte ?? last).toBeLessThanOrEqual(last);
            before = last;
          }
        },
      ),
    );
  });
});
