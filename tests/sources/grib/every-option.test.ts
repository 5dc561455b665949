// Every combination of options once, so that none is left to chance, and the corners that real files or the standard name.

import { describe, expect, it } from 'vitest';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import { SimdKernel } from '#sources/grib/kernel/simd.ts';
import { bitsOfValues, decodedBy, fieldsOf } from './decoded.ts';
import { cellOfNth, encodeMessage, expectedValue, type FieldSpec } from './encode.ts';
import type { Cell, GroupOptions } from './encode-groups.ts';

const kernels = [new PlainKernel(), new SimdKernel()];

const GROUPS: GroupOptions = {
  missingKinds: 0,
  order: 0,
  lengths: [7, 1, 12],
  lengthIncrement: 1,
  spareReferenceBits: 0,
  spareWidth: 0,
  widthReference: 0,
  spareExtraOctets: 0,
};

const spec = (
  cells: FieldSpec['cells'],
  groups: Partial<GroupOptions>,
  more: Partial<FieldSpec> = {},
): FieldSpec => ({
  ni: cells.length,
  nj: 1,
  scan: 0x40,
  cells,
  reference: 12.5,
  binaryScale: -2,
  decimalScale: 1,
  packing: { kind: 'complex', ...GROUPS, ...groups },
  bitmap: 'none',
  from: 3,
  ...more,
});

function expectBack(field: FieldSpec): void {
  const bytes = encodeMessage({ discipline: 0, fields: [field] });
  const expected = bitsOfValues(field.cells.map((cell) => expectedValue(field, cell)));
  for (const kernel of kernels)
    expect(bitsOfValues(decodedBy(kernel, bytes)[0] ?? []), kernel.name).toEqual(expected);
}

/** Widest group of a message with one field, by what its section 5 says [bit]. */
const widthsOf = (field: FieldSpec): { reference: number; bits: number } => {
  const raw = fieldsOf(encodeMessage({ discipline: 0, fields: [field] }))[0];
  return { reference: raw?.representation.u8(36) ?? 0, bits: raw?.representation.u8(37) ?? 0 };
};

const KINDS = [0, 1, 2] as const;
const SCANS = Array.from({ length: 16 }, (_, n) => n << 4);

function waves(count: number, bits: number, kinds: number): Cell[] {
  return Array.from({ length: count }, (_, n): Cell => {
    if (kinds > 0 && n % 11 === 4) return 'primary';
    if (kinds > 1 && n % 13 === 5) return 'secondary';
    if (kinds > 0 && n >= 40 && n < 60) return 'primary';
    return Math.floor((0.5 + 0.5 * Math.sin(n * n)) * (2 ** bits - 1));
  });
}

describe('every combination', () => {
  const cases = KINDS.flatMap((missingKinds) =>
    KINDS.flatMap((order) => SCANS.map((scan) => ({ missingKinds, order, scan }))),
  );

  it.each(cases)(
    'missing kinds $missingKinds, order $order, scanning mode $scan',
    ({ missingKinds, order, scan }) => {
      for (const bits of [0, 1, 2, 9, 24, 25, 26, 30]) {
        const cells = waves(9 * 14, bits, missingKinds);
        expectBack(spec(cells, { missingKinds, order }, { ni: 14, nj: 9, scan }));
      }
    },
  );

  it.each(Array.from({ length: 33 }, (_, bits) => bits))('simple packing of %i bits', (bits) => {
    const cells = waves(77, Math.min(bits, 31), 0);
    const packing = { kind: 'simple', spareBits: 32 - bits } as const;
    expectBack(spec(cells, {}, { packing }));
    expectBack(spec(cells, {}, { packing: { kind: 'simple', spareBits: 0 } }));
    const some = cells.map((cell, n) => (n % 3 === 1 ? null : cell));
    expectBack(spec(some, {}, { packing, bitmap: 'own', ni: 7, nj: 11, scan: 0x50 }));
  });
});

describe('the corners', () => {
  const gone = (n: number, kind: Cell = 'primary'): Cell[] => Array.from({ length: n }, () => kind);

  it('a field of groups without bits and references without bits is missing where missing values are managed', () => {
    expectBack(spec(gone(50), { missingKinds: 1 }));
    expectBack(spec(gone(50), { missingKinds: 1, order: 2 }));
  });

  it('the first values of spatial differencing stand behind missing ones, one kind or two', () => {
    const cells: Cell[] = [...gone(9), 100, ...gone(30), ...gone(3, 'secondary'), 90, 95, 91, ...gone(1), 94];
    for (const order of KINDS) expectBack(spec(cells, { missingKinds: 2, order }));
  });

  it('fewer values than the order of differencing', () => {
    for (const cells of [[...gone(4), 5, ...gone(4)], [7], gone(3)]) {
      for (const order of KINDS) expectBack(spec(cells, { missingKinds: 1, order }));
    }
  });

  it('negative first values, differences and minima carry a sign bit', () => {
    const cells = [-70_000, -69_000, -80_000, 5, 0, -1, -2_000_000];
    for (const order of [1, 2] as const) expectBack(spec(cells, { order }));
  });

  it('groups of 26 to 32 bits, and sums that leave 2^30', () => {
    const far = [0, 2 ** 29, 3, 2 ** 30 - 1, 2 ** 29 + 5, 1, 2 ** 30 - 7];
    for (const order of KINDS) expectBack(spec(far, { order, lengths: [7] }));
    const { reference, bits } = widthsOf(spec(far, { order: 2, lengths: [7] }));
    expect(reference + 2 ** bits - 1).toBeGreaterThan(25);
  });

  it('sums of small packed values that leave 32 bits: 1 + 2 + 3 …, and steps of a million', () => {
    const steep = Array.from({ length: 100_000 }, (_, n) => (n * (n + 1)) / 2);
    const even = Array.from({ length: 5000 }, (_, n) => n * 2 ** 20 + (n % 3));
    for (const sign of [1, -1]) {
      expectBack(
        spec(
          steep.map((value) => sign * value),
          { order: 2, lengths: [1000] },
        ),
      );
      expectBack(
        spec(
          even.map((value) => sign * value),
          { order: 1, lengths: [100] },
        ),
      );
    }
  });

  it('the order of sending, written out for a grid of three columns and two rows (flag table 3.4)', () => {
    const sent = (scan: number): number[] =>
      [0, 1, 2, 3, 4, 5].map((n) => cellOfNth({ ni: 3, nj: 2, scan }, n));
    expect(sent(0x40)).toEqual([0, 1, 2, 3, 4, 5]);
    expect(sent(0x00)).toEqual([3, 4, 5, 0, 1, 2]);
    expect(sent(0x50)).toEqual([0, 1, 2, 5, 4, 3]);
    expect(sent(0xc0)).toEqual([2, 1, 0, 5, 4, 3]);
    expect(sent(0x60)).toEqual([0, 3, 1, 4, 2, 5]);
    expect(sent(0x70)).toEqual([0, 3, 4, 1, 2, 5]);
    expect(sent(0x20)).toEqual([3, 0, 4, 1, 5, 2]);
  });
});
