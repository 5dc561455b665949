// RFC 4180 (Common Format and MIME Type for CSV Files), section 2; OWASP, CSV Injection.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvCell, csvText } from '#publish/list/csv.ts';
import { readCsv } from './read-csv.ts';

describe('a table as CSV', () => {
  it.each([
    ['=1+2', "'=1+2"],
    ['+15550100', "'+15550100"],
    ['-2', "'-2"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\tx', "'\tx"],
    ['=HYPERLINK("x","y")', `"'=HYPERLINK(""x"",""y"")"`],
    ['\r=1', `"'\r=1"`],
    ['Pit, north', '"Pit, north"'],
    ['a "b"', '"a ""b"""'],
    ['two\nlines', '"two\nlines"'],
    ['Peña', 'Peña'],
    ['', ''],
  ])('%j is written %j', (text, written) => {
    expect(csvCell(text)).toBe(written);
  });

  it('a number of ours is no formula, and what is not known is empty', () => {
    expect([csvCell(-2.5), csvCell(0), csvCell(null)]).toEqual(['-2.5', '0', '']);
  });

  it('whatever stands in it comes out again, and nothing of it begins a formula', () => {
    const cell = fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'=+-@\t\r\n",a'.split('')) }));
    fc.assert(
      fc.property(fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1 }), (rows) => {
        const read = readCsv(csvText(['head'], rows)).slice(1);
        expect(read.map((row) => row.map((text) => /^[=+\-@\t\r]/.test(text)))).toEqual(
          rows.map((row) => row.map(() => false)),
        );
        expect(
          read.map((row, i) => row.map((text, k) => (rows[i]?.[k] === text ? text : text.slice(1)))),
        ).toEqual(rows);
      }),
    );
  });
});
