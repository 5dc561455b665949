// Real GRIB2 files of the US National Weather Service, where they are at hand: read from beside the repository, never copied
// into it. The page beside them has the figures that ecCodes 2.28.0 and GDAL 3.6.2 give for them.

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe } from 'vitest';
import { readFile } from '#sources/grib/read-file.ts';
import type { RawField } from '#sources/grib/walk-sections.ts';

const FOLDER = join(import.meta.dirname, '../../../../shared/data/grib');
const present = existsSync(FOLDER);
if (!present) console.log('skipped: the real GRIB2 files (../shared/data/grib) are not at hand');

/** A suite over the real files; skipped, with a printed reason, where they are not at hand. */
export const describeReal = describe.skipIf(!present);

export const realFile = (name: string): Uint8Array => new Uint8Array(readFileSync(join(FOLDER, name)));

const known = new Map<string, readonly RawField[]>();

/** All fields of a real file, read once; a file that is not whole throws. */
export function realFields(name: string): readonly RawField[] {
  const before = known.get(name);
  if (before) return before;
  const { fields, faults } = readFile(realFile(name));
  if (faults[0]) throw faults[0];
  known.set(name, fields);
  return fields;
}

export interface FileFigures {
  readonly file: string;
  readonly fields: number;
  readonly bytes: number;
}

/** One row of the page: a field with the statistics of ecCodes, as printed. */
export interface FieldFigures {
  readonly file: string;
  readonly index: number;
  readonly param: string;
  readonly step: string;
  readonly grid: string;
  readonly product: string;
  readonly packing: string;
  readonly ni: number;
  readonly nj: number;
  readonly scan: number;
  readonly missing: number;
  readonly min: string;
  readonly max: string;
  readonly mean: string;
}

export interface CityFigures {
  readonly name: string;
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Of NDFD, NBM and HRRR. */
  readonly cells: readonly { i: number; j: number; index: number; value: number }[];
}

const rows = (width: number): string[][] =>
  readFileSync(join(FOLDER, 'README.md'), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| ') && !line.startsWith('| file') && !line.startsWith('| site'))
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((part) => part.trim()),
    )
    .filter((parts) => parts.length === width);

export const fileFigures = (): FileFigures[] =>
  present
    ? rows(4)
        .filter(([, source]) => source?.includes('@'))
        .map(([file = '', , fields, bytes]) => ({ file, fields: Number(fields), bytes: Number(bytes) }))
    : [];

export const fieldFigures = (): FieldFigures[] =>
  present
    ? rows(16).map((row) => {
        const at = (column: number): string => row[column] ?? '';
        const [ni = 0, nj = 0] = at(8).split('x').map(Number);
        return {
          file: at(0),
          index: Number(at(1)),
          param: at(2).split(' ')[0] ?? '',
          step: at(4),
          grid: at(5),
          product: at(6),
          packing: at(7),
          ni,
          nj,
          scan: Number(at(9)),
          missing: Number(at(12)),
          min: at(13),
          max: at(14),
          mean: at(15),
        };
      })
    : [];

/** `Houston -95.3698, 29.7604`, then three times `i, j, index, value`. */
export const cityFigures = (): CityFigures[] =>
  present
    ? rows(4)
        .filter(([name]) => /-\d/.test(name ?? ''))
        .map(([head = '', ...cells]) => {
          const [, name = '', lon, lat] = /^(.+) (-[\d.]+), ([\d.]+)$/.exec(head) ?? [];
          return {
            name,
            lonDeg: Number(lon),
            latDeg: Number(lat),
            cells: cells.map((cell) => {
              const [i = -1, j = -1, index = -1, value = Number.NaN] = cell.split(',').map(Number);
              return { i, j, index, value };
            }),
          };
        })
    : [];

/** Half a unit of the last digit that a figure is printed with: six digits, seven for means. */
export function printedTolerance(figure: string, digits: number): number {
  const value = Math.abs(Number(figure));
  if (value === 0) return 0;
  return 0.5 * 10 ** (Math.floor(Math.log10(value)) + 1 - digits);
}
