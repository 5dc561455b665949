// Values in the order of sending → the one order of this folder: j × ni + i, i eastward, j northward.

import type { Grid } from '#sources/grib/grid/grid.ts';

/** Puts the values in order: in place where they were sent by rows, into new memory where by columns. */
export function arrange(values: Float32Array, { ni, nj, scanning }: Grid): Float32Array {
  const { byColumn, turns, fromEast, fromSouth } = scanning;
  const [line, lines] = byColumn ? [nj, ni] : [ni, nj];
  if (turns) for (let n = 1; n < lines; n += 2) values.subarray(n * line, (n + 1) * line).reverse();
  const rows = byColumn ? transposed(values, ni, nj) : values;
  if (fromEast) for (let j = 0; j < nj; j += 1) rows.subarray(j * ni, (j + 1) * ni).reverse();
  if (!fromSouth) turnOver(rows, ni, nj);
  return rows;
}

function transposed(columns: Float32Array, ni: number, nj: number): Float32Array {
  const rows = new Float32Array(columns.length);
  for (let i = 0; i < ni; i += 1) {
    for (let j = 0; j < nj; j += 1) rows[j * ni + i] = columns[i * nj + j] as number;
  }
  return rows;
}

/** The first row changes places with the last one, and so on. */
function turnOver(rows: Float32Array, ni: number, nj: number): void {
  const kept = new Float32Array(ni);
  for (let low = 0, high = nj - 1; low < high; low += 1, high -= 1) {
    kept.set(rows.subarray(low * ni, (low + 1) * ni));
    rows.copyWithin(low * ni, high * ni, (high + 1) * ni);
    rows.set(kept, high * ni);
  }
}
