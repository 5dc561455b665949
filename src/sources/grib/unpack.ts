// Section 7 → values in the order in which they were sent, by one kernel or the other.

import type { FieldMemory, GroupRun, Kernel, Scale } from '#sources/grib/kernel/kernel.ts';
import { wideGroups } from '#sources/grib/kernel/wide.ts';
import { GribFault } from './fault.ts';
import { dataBits, isNarrow, layOut, readGroups } from './group-headers.ts';
import type { Meter } from './limits.ts';
import type { ComplexPacking, Packing, SimplePacking } from './packing.ts';
import type { Section } from './section.ts';

/** Kernels address bits with 32 bits. */
const MOST_DATA_OCTETS = 2 ** 28;
const COLUMN_OCTETS = 4;

/**
 * Unpacks into memory with room for `points`; the first `packing.count` are filled. The values belong to the kernel and hold
 * until its next field. Throws GribFault.
 */
export function unpack(
  packing: Packing,
  data: Section,
  points: number,
  kernel: Kernel,
  meter: Meter,
): Float32Array {
  const octets = data.length - 5;
  if (octets > MOST_DATA_OCTETS) throw new GribFault('too-large', `data of ${octets} octets`, data.start);
  const groups = packing.kind === 'complex' ? packing.groups : 0;
  meter.walk(octets + groups + points, 'the values', data.start);
  // Once as a copy or in a kernel's own memory, the three columns of groups, and the values.
  meter.hold(octets + 3 * COLUMN_OCTETS * groups + COLUMN_OCTETS * points, 'the values', data.start);
  const bytes = data.bytes.subarray(data.start + 5, data.end);
  if (packing.kind === 'simple') return unpackSimple(packing, data, bytes, points, kernel);
  return unpackGroups(packing, data, bytes, points, kernel);
}

function unpackSimple(
  packing: SimplePacking,
  data: Section,
  bytes: Uint8Array,
  points: number,
  kernel: Kernel,
): Float32Array {
  const needed = packing.count * packing.bits;
  if (needed > dataBits(data)) {
    const what = `${packing.count} values of ${packing.bits} bits take ${Math.ceil(needed / 8)} octets`;
    throw data.fault('truncated', `${what}, ${bytes.length} are there`, 6);
  }
  const { values } = kernel.begin(bytes, 0, points);
  kernel.simple({ count: packing.count, bits: packing.bits, ...scaleOf(packing) });
  return values;
}

function unpackGroups(
  packing: ComplexPacking,
  data: Section,
  bytes: Uint8Array,
  points: number,
  kernel: Kernel,
): Float32Array {
  const layout = layOut(packing, data);
  const memory = kernel.begin(bytes, packing.groups, points);
  readGroups(kernel, memory, packing, layout, data);
  const run: GroupRun = {
    ...scaleOf(packing),
    groups: packing.groups,
    firstBit: layout.valuesAt,
    missingKinds: packing.missingKinds,
    referenceBits: packing.bits,
    order: packing.order,
    first: layout.first,
    second: layout.second,
    minimum: layout.minimum,
  };
  if (isNarrow(memory, run) && kernel.groups(run)) return memory.values;
  return unpackWide(data, bytes, memory, run);
}

function unpackWide(data: Section, bytes: Uint8Array, memory: FieldMemory, run: GroupRun): Float32Array {
  if (!wideGroups(bytes, memory, run))
    throw data.fault('malformed', 'differences sum up to more than 34 bits', 6);
  return memory.values;
}

const scaleOf = ({ reference, binaryScale, decimalScale }: Packing): Scale => ({
  reference,
  binary: 2 ** binaryScale,
  decimal: 10 ** -decimalScale,
});
