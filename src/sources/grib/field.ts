// One field: its headers read, and its values decoded when they are asked for.

import type { Grid } from '#sources/grib/grid/grid.ts';
import { pointsOf, readGrid } from '#sources/grib/grid/read-grid.ts';
import type { Kernel } from '#sources/grib/kernel/kernel.ts';
import { arrange } from './arrange.ts';
import { readBitmap, spread } from './bitmap.ts';
import { Meter } from './limits.ts';
import { readPacking } from './packing.ts';
import { type Product, readProduct } from './product.ts';
import { type Origin, readOrigin } from './reference-time.ts';
import { unpack } from './unpack.ts';
import type { RawField } from './walk-sections.ts';

export interface FieldHead {
  readonly discipline: number;
  readonly origin: Origin;
  readonly product: Product;
}

/** What a field is of, without its grid. Throws GribFault. */
export function readHead(raw: RawField): FieldHead {
  const origin = readOrigin(raw.identification);
  return { discipline: raw.discipline, origin, product: readProduct(raw.product, origin.referenceMs) };
}

/** Where its cells lie. Throws GribFault. */
export const gridOf = (raw: RawField): Grid => readGrid(raw.grid);

/**
 * The values of a field, one for each cell at j × ni + i (i eastward, j northward); NaN where there is none. They stand in the
 * kernel's memory and hold until it decodes another field. Throws GribFault.
 */
export function decodeField(raw: RawField, grid: Grid, kernel: Kernel, meter = new Meter()): Float32Array {
  const values = decodeAsSent(raw, kernel, meter);
  if (grid.scanning.byColumn) meter.hold(values.byteLength, 'the values by rows', raw.data.start);
  return arrange(values, grid);
}

/** The values in the order of sending, whatever the grid; NaN where there is none. */
export function decodeAsSent(raw: RawField, kernel: Kernel, meter = new Meter()): Float32Array {
  meter.hold(raw.message.length, 'a message', raw.message.start);
  const packing = readPacking(raw.representation);
  const points = pointsOf(raw.grid);
  if (packing.count > points) {
    throw raw.representation.fault('malformed', `${packing.count} values for ${points} points`, 6);
  }
  meter.walk(Math.ceil(points / 8), 'the points', raw.bitmap.start);
  const bitmap = readBitmap(raw, points, packing.count);
  const values = unpack(packing, raw.data, points, kernel, meter);
  if (bitmap) spread(values, bitmap, packing.count);
  return values;
}
