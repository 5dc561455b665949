// Real files against ecCodes 2.28.0 and GDAL 3.6.2: statistics, the cells of eight cities on three grids, and what is refused.

import { expect, it } from 'vitest';
import { decodeAsSent, decodeField, gridOf, readHead } from '#sources/grib/field.ts';
import type { Grid } from '#sources/grib/grid/grid.ts';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import type { RawField } from '#sources/grib/walk-sections.ts';
import {
  cityFigures,
  describeReal,
  type FieldFigures,
  fieldFigures,
  fileFigures,
  printedTolerance,
  realFields,
  realFile,
} from './real-files.ts';

const kernel = new PlainKernel();

interface Statistics {
  missing: number;
  min: number;
  max: number;
  mean: number;
}

function statisticsOf(values: Float32Array): Statistics {
  let [count, sum, min, max] = [0, 0, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (Number.isNaN(value)) continue;
    count += 1;
    sum += value;
    if (value < min) min = value;
    if (value > max) max = value;
  }
  return { missing: values.length - count, min, max, mean: sum / count };
}

/** Values are rounded to single precision: half a unit in the 24th bit. */
const SINGLE = 2 ** -24;

function expectFigure(ours: number, figure: string, digits: number, scale: number, what: string): void {
  const tolerance = printedTolerance(figure, digits) + SINGLE * scale;
  expect(Math.abs(ours - Number(figure)), `${what}: ${ours}, printed ${figure}`).toBeLessThanOrEqual(
    tolerance,
  );
}

const templateOf = (grid: Grid): string =>
  ({ 'lat-lon': '3.0', mercator: '3.10', 'polar-stereographic': '3.20', lambert: '3.30' })[grid.kind];

const scanOf = ({ scanning }: Grid): number =>
  (scanning.fromEast ? 0x80 : 0) |
  (scanning.fromSouth ? 0x40 : 0) |
  (scanning.byColumn ? 0x20 : 0) |
  (scanning.turns ? 0x10 : 0);

/** As ecCodes prints it: in the message's own unit (minutes in one file), the end by the length of the span. */
function stepOf(raw: RawField): string {
  const { origin, product } = readHead(raw);
  const unitMs = raw.product.u8(18) === 0 ? 60_000 : 3_600_000;
  const from = (product.fromMs - origin.referenceMs) / unitMs;
  const lengthMs = product.period?.lengthMs ?? 0;
  return lengthMs > 0 ? `${from}-${from + lengthMs / unitMs}` : `${from}`;
}

const REFUSED_PACKING: Record<string, string> = { '5.40': 'JPEG 2000', '5.41': 'PNG' };

function expectField(figures: FieldFigures): void {
  const raw = realFields(figures.file)[figures.index];
  if (!raw) throw new Error('no such field');
  const head = readHead(raw);
  expect(`${head.discipline}/${head.product.category}/${head.product.number}`).toBe(figures.param);
  expect(`4.${head.product.template}`).toBe(figures.product);
  expect(stepOf(raw)).toBe(figures.step);
  const name = REFUSED_PACKING[figures.packing];
  if (name) {
    expect(() => decodeAsSent(raw, kernel)).toThrow(
      `packing ${figures.packing} (${name}) is not read (byte `,
    );
    return;
  }
  const values = decodeAsSent(raw, kernel);
  expect(values.length).toBe(figures.ni * figures.nj);
  const ours = statisticsOf(values);
  expect(ours.missing).toBe(figures.missing);
  const scale = Math.max(Math.abs(ours.min), Math.abs(ours.max));
  expectFigure(ours.min, figures.min, 6, scale, 'min');
  expectFigure(ours.max, figures.max, 6, scale, 'max');
  expectFigure(ours.mean, figures.mean, 7, scale, 'mean');
  if (figures.grid === '3.32769') {
    expect(() => gridOf(raw)).toThrow('grid template 3.32769 (rotated, Arakawa, local) is not read');
    return;
  }
  const grid = gridOf(raw);
  expect([templateOf(grid), grid.ni, grid.nj, scanOf(grid)]).toEqual([
    figures.grid,
    figures.ni,
    figures.nj,
    figures.scan,
  ]);
}

describeReal('the real files', () => {
  it('are 26, with 563 fields, and every byte is there', () => {
    const figures = fileFigures();
    expect(figures.length).toBe(26);
    for (const { file, fields, bytes } of figures) {
      expect([file, realFile(file).length, realFields(file).length]).toEqual([file, bytes, fields]);
    }
    expect(figures.reduce((sum, { fields }) => sum + fields, 0)).toBe(563);
  });

  it('every field decodes, or is refused by name', () => {
    for (const { file } of fileFigures()) {
      for (const raw of realFields(file)) {
        if (/jpeg|png/.test(file)) expect(() => decodeAsSent(raw, kernel), file).toThrow('is not read');
        else expect(decodeAsSent(raw, kernel).length, file).toBeGreaterThan(0);
      }
    }
  });

  it.each(fieldFigures())('$file $index has the statistics that ecCodes gives', expectField);

  it('has as many rows of figures as the page', () => {
    expect(fieldFigures().length).toBe(58);
    expect(cityFigures().length).toBe(8);
  });
});

describeReal('the order of cells', () => {
  const FILES = ['ds.minrh.bin', 'blend.t00z.core.f001.tmp.co.grib2', 'hrrr.t06z.wrfsfcf01-UGRD.grib2'];

  it.each([0, 1, 2])('cells of eight cities have the values that ecCodes and GDAL find, grid %i', (which) => {
    const raw = realFields(FILES[which] ?? '')[0];
    if (!raw) throw new Error('no field');
    const grid = gridOf(raw);
    const values = decodeField(raw, grid, kernel);
    for (const { name, cells } of cityFigures()) {
      const { i, j, index, value } = cells[which] ?? { i: 0, j: 0, index: 0, value: 0 };
      expect([name, j * grid.ni + i]).toEqual([name, index]);
      expect(Math.abs((values[index] ?? Number.NaN) - value), name).toBeLessThanOrEqual(5.1e-5);
    }
  });

  it('turned rows fit their neighbours: mean difference 0.85 %, 15.7 % where they are not turned', () => {
    const raw = realFields('ds.minrh.bin')[0];
    if (!raw) throw new Error('no field');
    const grid = gridOf(raw);
    const asSent = rowDifference(decodeAsSent(raw, kernel), grid.ni);
    expect(Number(asSent.toFixed(1))).toBe(15.7);
    expect(Number(rowDifference(decodeField(raw, grid, kernel), grid.ni).toFixed(2))).toBe(0.85);
  });
});

/** Mean difference of a cell and the one above it, where both have a value. */
function rowDifference(values: Float32Array, ni: number): number {
  let [sum, count] = [0, 0];
  for (let at = ni; at < values.length; at += 1) {
    const difference = Math.abs((values[at] ?? Number.NaN) - (values[at - ni] ?? Number.NaN));
    if (Number.isNaN(difference)) continue;
    sum += difference;
    count += 1;
  }
  return sum / count;
}
