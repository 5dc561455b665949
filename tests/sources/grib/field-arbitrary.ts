// Fields of every packing and option, for fast-check.

import fc from 'fast-check';
import type { FieldSpec } from './encode.ts';
import type { Cell, GroupOptions } from './encode-groups.ts';

/** Every scanning mode without offset points. */
const SCANS = Array.from({ length: 16 }, (_, n) => n << 4);

interface Shape {
  readonly ni: number;
  readonly nj: number;
  readonly scan: number;
}

export const shape = (most: number): fc.Arbitrary<Shape> =>
  fc.record({
    ni: fc.integer({ min: 1, max: most }),
    nj: fc.integer({ min: 1, max: most }),
    scan: fc.constantFrom(...SCANS),
  });

const groupOptions = (longest: number): fc.Arbitrary<GroupOptions> =>
  fc.record({
    missingKinds: fc.constantFrom(0, 1, 2),
    order: fc.constantFrom(0, 1, 2),
    lengths: fc.array(fc.integer({ min: 1, max: longest }), { minLength: 1, maxLength: 6 }),
    lengthIncrement: fc.integer({ min: 1, max: 5 }),
    spareReferenceBits: fc.integer({ min: 0, max: 3 }),
    spareWidth: fc.constantFrom(0, 0, 1, 7),
    widthReference: fc.constantFrom(0, 0, 1, 3, 11),
    spareExtraOctets: fc.integer({ min: 0, max: 2 }),
  });

const simple = fc.record({ kind: fc.constant('simple' as const), spareBits: fc.constantFrom(0, 1, 5, 32) });

const packing = (longest: number): fc.Arbitrary<FieldSpec['packing']> =>
  fc.oneof(
    { arbitrary: simple, weight: 1 },
    {
      arbitrary: groupOptions(longest).map((options) => ({ kind: 'complex' as const, ...options })),
      weight: 4,
    },
  );

/** Runs of one value, of values near each other, of missing ones, and single odd ones. */
function cellsOf(count: number, bits: number, kinds: number): fc.Arbitrary<Cell[]> {
  const top = 2 ** bits - 1;
  const value = fc.integer({ min: 0, max: top });
  const missing = fc.constantFrom<Cell>(
    ...(kinds === 2 ? (['primary', 'secondary'] as const) : (['primary'] as const)),
  );
  const run = fc.oneof(
    fc
      .tuple(value, fc.integer({ min: 1, max: 40 }))
      .map(([v, n]): Cell[] => Array.from({ length: n }, () => v)),
    fc.array(value, { minLength: 1, maxLength: 40 }),
    fc
      .tuple(value, fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 1, maxLength: 40 }))
      .map(([v, steps]): Cell[] => steps.map((step) => Math.min(top, v + step))),
    ...(kinds > 0
      ? [
          fc
            .tuple(missing, fc.integer({ min: 1, max: 40 }))
            .map(([m, n]): Cell[] => Array.from({ length: n }, () => m)),
          fc.array(fc.oneof(value, missing), { minLength: 1, maxLength: 30 }),
        ]
      : []),
  );
  return fc.array(run, { minLength: 1, maxLength: 30 }).map((runs) => {
    const cells = runs.flat();
    return Array.from({ length: count }, (_, n) => cells[n % cells.length] ?? 0);
  });
}

export const field = (most: number, longest: number, at?: Shape): fc.Arbitrary<FieldSpec> =>
  fc
    .record({
      size: at ? fc.constant(at) : shape(most),
      packing: packing(longest),
      bits: fc.integer({ min: 0, max: 28 }),
      bitmap: fc.constantFrom('none' as const, 'none' as const, 'own' as const),
      mask: fc.array(fc.boolean(), { minLength: 1, maxLength: 50 }),
      reference: fc.constantFrom(0, 276.1, -40.25, 1e-3, 101_325, -0),
      binaryScale: fc.integer({ min: -12, max: 6 }),
      decimalScale: fc.integer({ min: -3, max: 5 }),
    })
    .chain(({ size, bits, mask, ...rest }) => {
      const kinds = rest.packing.kind === 'complex' ? rest.packing.missingKinds : 0;
      return cellsOf(size.ni * size.nj, bits, kinds).map((cells) => ({
        ...size,
        ...rest,
        from: 3 as const,
        cells: rest.bitmap === 'own' ? cells.map((cell, n) => (mask[n % mask.length] ? cell : null)) : cells,
      }));
    });
