// Messages written by an encoder of the tests come back, bit for bit, by both kernels: every packing, order of differencing,
// kind of missing value, scanning mode and bitmap.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import { SimdKernel } from '#sources/grib/kernel/simd.ts';
import { bitsOfValues, decodedBy } from './decoded.ts';
import { encodeMessage, expectedValue, type FieldSpec } from './encode.ts';
import { field, shape } from './field-arbitrary.ts';

const kernels = [new PlainKernel(), new SimdKernel()];

function expectBack(fields: readonly FieldSpec[]): void {
  const bytes = encodeMessage({ discipline: 0, fields });
  for (const kernel of kernels) {
    const decoded = decodedBy(kernel, bytes);
    expect(decoded.length).toBe(fields.length);
    for (const [n, spec] of fields.entries()) {
      const expected = spec.cells.map((cell) => expectedValue(spec, cell));
      expect(bitsOfValues(decoded[n] ?? []), `${kernel.name}, field ${n}`).toEqual(bitsOfValues(expected));
    }
  }
}

describe('a message comes back as it was written', () => {
  it('small fields of every packing', () => {
    fc.assert(
      fc.property(field(18, 60), (spec) => expectBack([spec])),
      { numRuns: 600 },
    );
  });

  it('fields that are larger than the blocks in which they are unpacked', () => {
    fc.assert(
      fc.property(field(130, 6000), (spec) => expectBack([spec])),
      { numRuns: 40 },
    );
  });

  it('several fields in one message: the grid stands until another comes, and a bitmap is taken from the field before', () => {
    const several = shape(12).chain((size) =>
      fc.tuple(
        field(12, 40, size),
        fc.array(field(12, 40, size), { minLength: 1, maxLength: 3 }),
        field(12, 40),
      ),
    );
    fc.assert(
      fc.property(several, fc.constantFrom(2 as const, 3 as const), ([first, same, other], from) => {
        const follow = same.map((spec): FieldSpec => {
          if (first.bitmap !== 'own' || spec.bitmap !== 'own')
            return { ...spec, from: 4, bitmap: 'none', cells: full(spec) };
          const cells = full(spec).map((cell, n) => (first.cells[n] === null ? null : cell));
          return { ...spec, from: 4, bitmap: 'before', cells };
        });
        expectBack([first, ...follow, { ...other, from }]);
      }),
      { numRuns: 150 },
    );
  });
});

const full = ({ cells }: FieldSpec) => cells.map((cell) => cell ?? 0);
