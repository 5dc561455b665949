// What a kernel does: bits → numbers, and groups → values. Everything is checked before it is called, so that a kernel reads
// and writes only where it may. Two kernels give the same values, bit for bit.

/** The memory of one field. Views hold until the next `begin`. */
export interface FieldMemory {
  /** Group references, widths and lengths. */
  readonly references: Uint32Array;
  readonly widths: Uint32Array;
  readonly lengths: Uint32Array;
  /** Room for every point of the grid. */
  readonly values: Float32Array;
}

/** Value = (reference + packed × binary) × decimal, in double precision, then rounded to single. */
export interface Scale {
  readonly reference: number;
  readonly binary: number;
  readonly decimal: number;
}

export interface SimpleRun extends Scale {
  readonly count: number;
  readonly bits: number;
}

export interface GroupRun extends Scale {
  readonly groups: number;
  /** Where the packed values of the first group begin [bit of the data]. */
  readonly firstBit: number;
  /** 1 or 2 of the highest packed values of a group mean missing; 0 none does. */
  readonly missingKinds: 0 | 1 | 2;
  /** Bits of a group reference: a group without bits is missing where its reference is all ones. */
  readonly referenceBits: number;
  readonly order: 0 | 1 | 2;
  /** The first values of spatial differencing, and the overall minimum of the differences. */
  readonly first: number;
  readonly second: number;
  readonly minimum: number;
}

export type GroupColumn = 'references' | 'widths' | 'lengths';

export interface Kernel {
  readonly name: string;
  /** Memory that it keeps: of the largest field so far [bytes]. */
  readonly keptBytes: number;
  /** Takes the data of one field and makes room: `groups` in each column, `cells` values. */
  begin(data: Uint8Array, groups: number, cells: number): FieldMemory;
  /** `count` numbers of `width` bits (0 … 32) from a bit of the data into a column. */
  bits(fromBit: number, width: number, count: number, into: GroupColumn): void;
  /** Simply packed values, 0 … 32 bits each, from the first bit of the data. */
  simple(run: SimpleRun): void;
  /**
   * The values of all groups, widths 0 … 25, references + packed values below 2^30. False where a difference or a sum leaves
   * ±2^30: the values are then void.
   */
  groups(run: GroupRun): boolean;
}

/** Kernels count in 32 bits within these bounds, so that no sum of two can overflow unseen. */
export const NARROW = 2 ** 30;
export const NARROW_BITS = 25;

/** Highest packed values that mean missing: this one and above. */
export const missingFrom = (bits: number, missingKinds: number): number =>
  (bits < 31 ? 1 << bits : 2 ** bits) - missingKinds;
