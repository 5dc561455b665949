// Groups that do not fit into 32 bits: widths above 25, large references, or differences that leave ±2^30. Exact in double
// precision, slower, and the same for every kernel.

import { LARGEST_PACKED } from '#sources/grib/packing.ts';
import { padded, wideAt } from './bits.ts';
import { type FieldMemory, type GroupRun, missingFrom } from './kernel.ts';

/** Writes the values. False where one leaves ±2^34, which no packing of 32 bits means. */
export function wideGroups(data: Uint8Array, memory: FieldMemory, run: GroupRun): boolean {
  const view = padded(data);
  const sums = { seen: 0, value: 0, difference: 0 };
  let bit = run.firstBit;
  let at = 0;
  for (let g = 0; g < run.groups; g += 1) {
    const width = memory.widths[g] as number;
    const reference = memory.references[g] as number;
    const end = at + (memory.lengths[g] as number);
    for (; at < end; at += 1) {
      const packed = width === 0 ? reference : wideAt(view, bit, width);
      bit += width;
      const gone =
        run.missingKinds > 0 &&
        packed >= missingFrom(width === 0 ? run.referenceBits : width, run.missingKinds);
      if (gone) {
        memory.values[at] = Number.NaN;
        continue;
      }
      const value = nextSum(sums, run, width === 0 ? packed : packed + reference);
      // Not a number fails too.
      if (!(Math.abs(value) <= LARGEST_PACKED && Math.abs(sums.difference) <= 2 * LARGEST_PACKED))
        return false;
      memory.values[at] = (run.reference + value * run.binary) * run.decimal;
    }
  }
  return true;
}

function nextSum(
  sums: { seen: number; value: number; difference: number },
  run: GroupRun,
  packed: number,
): number {
  if (run.order === 0) return packed;
  if (sums.seen < run.order) {
    sums.difference = sums.seen === 0 ? 0 : run.second - run.first;
    sums.value = sums.seen === 0 ? run.first : run.second;
    sums.seen += 1;
    return sums.value;
  }
  sums.difference = (run.order === 2 ? sums.difference : 0) + packed + run.minimum;
  sums.value += sums.difference;
  return sums.value;
}
