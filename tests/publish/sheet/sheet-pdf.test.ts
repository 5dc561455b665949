// The day sheet as PDF, read back by an independent reader: one page whatever stands on it, every word of the sheet on it,
// within the paper (ANSI/ASME Y14.1 Letter 8.5 x 11 in; ISO 216 A4 210 x 297 mm).

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Sheet } from '#publish/page/sheet/sheet.ts';
import type { Paper } from '#publish/sheet/pen.ts';
import { sheetPdf } from '#publish/sheet/sheet-pdf.ts';
import { winAnsi } from '#publish/sheet/win-ansi.ts';
import { sheetWords } from '#publish/wording/sheet-words.ts';
import { inventedSheet, sheetNames } from './invented-sheets.ts';
import { type ReadPdf, readPdf } from './read-pdf.ts';

const SIZE: Readonly<Record<Paper, readonly [number, number]>> = {
  letter: [8.5 * 72, 11 * 72],
  a4: [(210 / 25.4) * 72, (297 / 25.4) * 72],
};

const made = async (sheet: Sheet, paper: Paper = 'letter'): Promise<ReadPdf> =>
  readPdf(await sheetPdf(sheet, { paper, title: 'Day sheet', madeAt: new Date('2026-11-24T22:02:00Z') }));

/** Words without the spaces between: where a line is broken, the reader may find none. */
const solid = (text: string): string => text.replaceAll(/\s+/g, '');

/** Everything that a sheet says. */
const wordsOn = (sheet: Sheet): string[] => [
  ...sheet.head,
  sheet.site,
  sheet.day,
  sheet.word,
  sheet.voidAfter,
  ...sheet.voidNotes,
  ...(sheet.reason === null ? [] : [sheet.reason]),
  ...sheet.times.flat(),
  ...sheet.pauses,
  ...sheet.rows.flatMap(({ name, limit, cells }) => [`${name}: ${limit}`, ...cells.map(({ text }) => text)]),
  ...sheet.smoke.map(({ text }) => text),
  ...sheet.places,
  ...sheet.change,
  ...sheet.tailgate,
  ...sheet.where,
  sheet.caution,
];

const missingOn = ({ text }: ReadPdf, sheet: Sheet): string[] =>
  wordsOn(sheet).filter((words) => !solid(text).includes(solid(winAnsi(words))));

describe('the day sheet as PDF', () => {
  it.each(['en', 'es'] as const)(
    'has every word of every kind of day on one page, in %s',
    async (language) => {
      for (const name of sheetNames) {
        const { sheet } = inventedSheet(name, { language });
        const read = await made(sheet);
        expect([name, read.pages, read.outside, missingOn(read, sheet)]).toEqual([name, 1, [], []]);
      }
    },
  );

  it.each(['letter', 'a4'] as const)('is %s where that is asked for', async (paper) => {
    const { size, title } = await made(inventedSheet('go').sheet, paper);
    for (const i of [0, 1] as const) expect(size[i]).toBeCloseTo(SIZE[paper][i], 0);
    expect(title).toBe('Day sheet');
  });

  it('has its figures in the units that were asked for', async () => {
    const us = await made(inventedSheet('go').sheet);
    const si = await made(inventedSheet('go', { units: 'si' }).sheet);
    expect(us.text).toContain('at most 20, stop 25 mph');
    expect(si.text).toContain('at most 8.9, stop 11.2 m/s');
    expect(si.text).not.toContain('mph');
  });

  it('stays one page, within the paper and with what decides on it, however much there is', async () => {
    const { sheet } = inventedSheet('go', { language: 'es' });
    const name = 'Finca de los Almendros Viejos del Arroyo Seco y Camino Hondo, fosa número veintitrés';
    const many = (count: number, text: string): string[] =>
      Array.from({ length: count }, (_, i) => `${text} ${i + 1} ${name}`);
    const [row] = sheet.rows;
    if (!row) throw new Error('no limit');
    for (const count of [8, 16, 40]) {
      const full: Sheet = {
        ...sheet,
        site: `${name} ${name}`,
        reason: many(1, 'Lo más ajustado').join(),
        rows: Array.from({ length: count }, (_, i) => ({
          ...row,
          name: `Límite ${i + 1}`,
          limit: `máximo 20, alto 25 mph, permiso del condado ${i + 1}, hoja dos`,
        })),
        places: many(count, 'Escuela'),
        change: many(count, 'Viento'),
      };
      for (const paper of ['letter', 'a4'] as const) {
        const read = await made(full, paper);
        expect([count, read.pages, read.outside]).toEqual([count, 1, []]);
        for (const words of [full.voidAfter, full.site, ...full.times.flat(), ...full.tailgate, full.caution])
          expect(solid(read.text)).toContain(solid(words));
        const cut = /y (\d+) más en la página del día/.exec(read.text);
        if (count === 40) expect(Number(cut?.[1])).toBeGreaterThan(0);
      }
    }
  });

  it('says so where nothing of the day may be used, and gives no time and no go', async () => {
    const { sheet } = inventedSheet('stale');
    const { text } = await made(sheet);
    expect(text).toContain(sheetWords('en').voidNow);
    expect(text).toContain("CAN'T SAY");
    expect(text).not.toMatch(/\bGO\b/);
    expect(sheet.times.map(([, clock]) => clock)).toEqual(['–', '–', '–']);
  });

  it('is the same bytes for the same sheet and moment', async () => {
    const { sheet } = inventedSheet('pause');
    const asked = { paper: 'letter', title: 'x', madeAt: new Date(0) } as const;
    expect((await sheetPdf(sheet, asked)).equals(await sheetPdf(sheet, asked))).toBe(true);
  });
});

describe('a text for the standard fonts', () => {
  it.each([
    ['Peña áéíóú ¿¡', 'Peña áéíóú ¿¡'],
    ['80° – 140° “x” … €', '80° – 140° “x” … €'],
    ['Łódź', '?ódz'],
    ['Dvořák', 'Dvorák'],
    ['井戸', '??'],
    ['a\u0301', 'á'],
    ['a\tb\nc', 'a b c'],
  ])('%j is set as %j', (text, set) => {
    expect(winAnsi(text)).toBe(set);
  });

  it('whatever comes in, comes out as one letter of the code page for each', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (text) => {
        expect(winAnsi(text)).toMatch(/^[\u0020-\u007e\u00a0-\u00ff€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ]*$/u);
      }),
    );
  });
});
