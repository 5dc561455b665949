// The heads of complex packing in section 7: extra descriptors, then references, widths and lengths of all groups. Sums are
// held against the number of values and the length of the section before anything is unpacked.

import {
  type FieldMemory,
  type GroupRun,
  type Kernel,
  NARROW,
  NARROW_BITS,
} from '#sources/grib/kernel/kernel.ts';
import type { GribFault } from './fault.ts';
import type { ComplexPacking } from './packing.ts';
import type { Section } from './section.ts';

/** What stands where [bit of the data, which begin at octet 6]. */
export interface GroupLayout {
  readonly first: number;
  readonly second: number;
  readonly minimum: number;
  readonly referencesAt: number;
  readonly widthsAt: number;
  readonly lengthsAt: number;
  readonly valuesAt: number;
}

export function layOut(packing: ComplexPacking, data: Section): GroupLayout {
  const { order, extraOctets, groups } = packing;
  const read = (index: number): number => data.sN(6 + index * extraOctets, extraOctets);
  const columns = order === 0 ? 0 : 8 * extraOctets * (order + 1);
  const referencesAt = columns;
  const widthsAt = referencesAt + wholeOctets(groups * packing.bits);
  const lengthsAt = widthsAt + wholeOctets(groups * packing.widthBits);
  const valuesAt = lengthsAt + wholeOctets(groups * packing.lengthBits);
  if (valuesAt > dataBits(data)) {
    throw data.fault(
      'truncated',
      `the heads of ${groups} groups take ${valuesAt / 8} octets, ${data.length - 5} are there`,
      6,
    );
  }
  return {
    first: order > 0 ? read(0) : 0,
    second: order > 1 ? read(1) : 0,
    minimum: order > 0 ? read(order) : 0,
    referencesAt,
    widthsAt,
    lengthsAt,
    valuesAt,
  };
}

export const dataBits = (data: Section): number => 8 * (data.length - 5);

const wholeOctets = (bits: number): number => 8 * Math.ceil(bits / 8);

/** Reads the three columns and turns them into widths [bit] and lengths [values]. Throws where they do not add up. */
export function readGroups(
  kernel: Kernel,
  memory: FieldMemory,
  packing: ComplexPacking,
  layout: GroupLayout,
  data: Section,
): void {
  const { groups, widthReference, lengthReference, lengthIncrement, lastLength } = packing;
  kernel.bits(layout.referencesAt, packing.bits, groups, 'references');
  kernel.bits(layout.widthsAt, packing.widthBits, groups, 'widths');
  kernel.bits(layout.lengthsAt, packing.lengthBits, groups, 'lengths');
  const { widths, lengths } = memory;
  let values = 0;
  let bits = 0;
  for (let g = 0; g < groups; g += 1) {
    const width = widthReference + (widths[g] as number);
    const length = g === groups - 1 ? lastLength : lengthReference + lengthIncrement * (lengths[g] as number);
    values += length;
    bits += width * length;
    if (width > 32 || values > packing.count) throw badGroup(data, g, width, values, packing.count);
    widths[g] = width;
    lengths[g] = length;
  }
  if (values !== packing.count) {
    throw data.fault('malformed', `the groups hold ${values} values, section 5 says ${packing.count}`, 6);
  }
  if (layout.valuesAt + bits > dataBits(data)) {
    const needed = Math.ceil((layout.valuesAt + bits) / 8);
    throw data.fault('truncated', `the groups take ${needed} octets, ${data.length - 5} are there`, 6);
  }
}

function badGroup(data: Section, group: number, width: number, values: number, count: number): GribFault {
  const what = width > 32 ? `is ${width} bits wide` : `ends at value ${values}, section 5 says ${count}`;
  return data.fault('malformed', `group ${group} ${what}`, 6);
}

/** True where 32 bits hold all that comes up before differences are summed up. */
export function isNarrow(memory: FieldMemory, run: GroupRun): boolean {
  const { first, second, minimum } = run;
  for (const value of [first, second, second - first, minimum]) if (Math.abs(value) >= NARROW) return false;
  let most = 0;
  for (let g = 0; g < run.groups; g += 1) {
    const width = memory.widths[g] as number;
    if (width > NARROW_BITS) return false;
    const top = (memory.references[g] as number) + (1 << width);
    if (top > most) most = top;
  }
  return most < NARROW;
}
