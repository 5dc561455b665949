// Section 5: how the values of a field are packed. Templates 5.0 (simple), 5.2 (complex) and 5.3 (complex with spatial
// differencing); others are refused by name.

import type { Section } from './section.ts';

export interface SimplePacking {
  readonly kind: 'simple';
  /** How many values section 7 holds. */
  readonly count: number;
  /** Value = (reference + packed × 2^binaryScale) ÷ 10^decimalScale (regulation 92.9.4). */
  readonly reference: number;
  readonly binaryScale: number;
  readonly decimalScale: number;
  readonly bits: number;
}

export interface ComplexPacking extends Omit<SimplePacking, 'kind'> {
  readonly kind: 'complex';
  /** Code table 5.5: 0 none, 1 primary missing values, 2 primary and secondary ones. */
  readonly missingKinds: 0 | 1 | 2;
  readonly groups: number;
  readonly widthReference: number;
  readonly widthBits: number;
  readonly lengthReference: number;
  readonly lengthIncrement: number;
  readonly lastLength: number;
  readonly lengthBits: number;
  /** Of spatial differencing; 0 is none. */
  readonly order: 0 | 1 | 2;
  readonly extraOctets: number;
}

export type Packing = SimplePacking | ComplexPacking;

/** Packed values are smaller, differences summed up included; larger ones are refused. */
export const LARGEST_PACKED = 2 ** 34;

/** Throws GribFault. */
export function readPacking(section: Section): Packing {
  const template = section.u16(10);
  if (template !== 0 && template !== 2 && template !== 3) {
    const name = OTHER_TEMPLATES[template];
    throw section.fault('unsupported', `packing 5.${template}${name ? ` (${name})` : ''} is not read`, 10);
  }
  const simple = readSimple(section);
  if (template === 0) return { kind: 'simple', ...simple };
  return readComplex(section, simple, template === 3);
}

function readSimple(section: Section): Omit<SimplePacking, 'kind'> {
  const reference = section.f32(12);
  const [binaryScale, decimalScale] = [section.s16(16), section.s16(18)];
  const bits = section.u8(20);
  if (!Number.isFinite(reference)) throw section.fault('malformed', 'the reference value is no number', 12);
  // Scales beyond these overflow the numbers that they scale.
  if (Math.abs(binaryScale) > 127) throw section.fault('malformed', `binary scale ${binaryScale}`, 16);
  if (Math.abs(decimalScale) > 38) throw section.fault('malformed', `decimal scale ${decimalScale}`, 18);
  const largest = (Math.abs(reference) + LARGEST_PACKED * 2 ** binaryScale) / 10 ** decimalScale;
  if (Math.fround(largest) === Number.POSITIVE_INFINITY) {
    throw section.fault('malformed', `binary scale ${binaryScale} with decimal scale ${decimalScale}`, 16);
  }
  if (bits > 32) throw section.fault('unsupported', `${bits} bits a value, at most 32 are read`, 20);
  return { count: section.u32(6), reference, binaryScale, decimalScale, bits };
}

function readComplex(
  section: Section,
  simple: Omit<SimplePacking, 'kind'>,
  differences: boolean,
): ComplexPacking {
  const splitting = section.u8(22);
  if (splitting !== 1) throw section.fault('unsupported', `group splitting ${splitting} is not read`, 22);
  const missingKinds = section.u8(23);
  if (missingKinds > 2) throw section.fault('malformed', `missing value management ${missingKinds}`, 23);
  const groups = section.u32(32);
  if (groups > simple.count || (groups === 0 && simple.count > 0)) {
    throw section.fault('malformed', `${groups} groups for ${simple.count} values`, 32);
  }
  const order = differences ? section.u8(48) : 0;
  if (differences && order !== 1 && order !== 2)
    throw section.fault('unsupported', `differences of order ${order}`, 48);
  const extraOctets = differences ? section.u8(49) : 0;
  if (extraOctets > 4) throw section.fault('unsupported', `${extraOctets} octets an extra descriptor`, 49);
  const [widthBits, lengthBits] = [section.u8(37), section.u8(47)];
  if (widthBits > 32) throw section.fault('malformed', `${widthBits} bits a group width`, 37);
  if (lengthBits > 32) throw section.fault('malformed', `${lengthBits} bits a group length`, 47);
  return {
    kind: 'complex',
    ...simple,
    missingKinds: missingKinds as 0 | 1 | 2,
    groups,
    widthReference: section.u8(36),
    widthBits,
    lengthReference: section.u32(38),
    lengthIncrement: section.u8(42),
    lastLength: section.u32(43),
    lengthBits,
    order: order as 0 | 1 | 2,
    extraOctets,
  };
}

/** Code table 5.0. */
const OTHER_TEMPLATES: Readonly<Record<number, string>> = {
  1: 'matrix of values',
  4: 'IEEE floating point',
  40: 'JPEG 2000',
  41: 'PNG',
  42: 'CCSDS',
  50: 'spectral, simple',
  51: 'spectral, complex',
  61: 'simple with logarithm',
  200: 'run length with levels',
  40000: 'JPEG 2000, local',
  40010: 'PNG, local',
};
