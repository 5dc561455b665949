// The kernel in plain TypeScript. Groups are laid out in blocks that stay in the nearest cache, then summed up and scaled.

import { bitsInto, padded } from './bits.ts';
import {
  type FieldMemory,
  type GroupColumn,
  type GroupRun,
  type Kernel,
  missingFrom,
  NARROW,
  type SimpleRun,
} from './kernel.ts';

const BLOCK = 4096;
const CELL = 4;
/** A cell without a value; no packed value is as low. */
const GONE = -0x8000_0000;

interface Sums {
  /** How many cells had a value so far, up to the order of differencing. */
  seen: number;
  value: number;
  difference: number;
  /** Highest bit set once a sum left ±2^30. */
  over: number;
  /** Next cell of the values. */
  at: number;
}

export class PlainKernel implements Kernel {
  readonly name = 'plain';
  readonly #block = new Int32Array(BLOCK);
  /** The same memory, read without a sign. */
  readonly #unsigned = new Uint32Array(this.#block.buffer);
  /** One stretch for all: group columns, then values. */
  #memory = new ArrayBuffer(0);
  #columns: Record<GroupColumn, Uint32Array> = {
    references: new Uint32Array(this.#memory),
    widths: new Uint32Array(this.#memory),
    lengths: new Uint32Array(this.#memory),
  };
  #values = new Float32Array(this.#memory);
  #view: DataView = new DataView(this.#memory);

  get keptBytes(): number {
    return this.#memory.byteLength + this.#block.byteLength;
  }

  begin(data: Uint8Array, groups: number, cells: number): FieldMemory {
    const octets = CELL * (3 * groups + cells);
    if (this.#memory.byteLength < octets) this.#memory = new ArrayBuffer(octets);
    const column = (n: number): Uint32Array => new Uint32Array(this.#memory, CELL * groups * n, groups);
    this.#columns = { references: column(0), widths: column(1), lengths: column(2) };
    this.#values = new Float32Array(this.#memory, CELL * groups * 3, cells);
    this.#view = padded(data);
    return { ...this.#columns, values: this.#values };
  }

  bits(fromBit: number, width: number, count: number, into: GroupColumn): void {
    bitsInto(this.#view, fromBit, width, this.#columns[into], 0, count);
  }

  simple({ count, bits, reference, binary, decimal }: SimpleRun): void {
    const values = this.#values;
    const block = this.#unsigned;
    for (let at = 0; at < count; at += BLOCK) {
      const length = Math.min(BLOCK, count - at);
      bitsInto(this.#view, at * bits, bits, block, 0, length);
      for (let i = 0; i < length; i += 1) {
        values[at + i] = (reference + (block[i] as number) * binary) * decimal;
      }
    }
  }

  groups(run: GroupRun): boolean {
    const { references, widths, lengths } = this.#columns;
    const sums: Sums = { seen: 0, value: 0, difference: 0, over: 0, at: 0 };
    const wholeGone = missingFrom(run.referenceBits, run.missingKinds);
    let bit = run.firstBit;
    let filled = 0;
    for (let g = 0; g < run.groups; g += 1) {
      const width = widths[g] as number;
      const reference = references[g] as number;
      let left = lengths[g] as number;
      if (width === 0 && run.missingKinds > 0 && reference >= wholeGone) {
        this.#flush(run, sums, filled);
        filled = 0;
        this.#values.fill(Number.NaN, sums.at, sums.at + left);
        sums.at += left;
        continue;
      }
      while (left > 0) {
        const take = Math.min(left, BLOCK - filled);
        this.#lay(bit, width, reference, filled, filled + take, run.missingKinds);
        bit += take * width;
        left -= take;
        filled += take;
        if (filled === BLOCK) {
          this.#flush(run, sums, filled);
          filled = 0;
        }
      }
    }
    this.#flush(run, sums, filled);
    return sums.over >= 0;
  }

  /** One group, or a part of it, into the block. */
  #lay(bit: number, width: number, reference: number, from: number, to: number, missingKinds: number): void {
    const block = this.#block;
    if (width === 0) {
      block.fill(reference, from, to);
      return;
    }
    const view = this.#view;
    const shift = 32 - width;
    const gone = missingKinds > 0 ? missingFrom(width, missingKinds) : NARROW;
    let at = bit;
    for (let i = from; i < to; i += 1) {
      const packed = (view.getUint32(at >>> 3) << (at & 7)) >>> shift;
      block[i] = packed >= gone ? GONE : packed + reference;
      at += width;
    }
  }

  #flush(run: GroupRun, sums: Sums, filled: number): void {
    if (run.order === 0) plainSums(this.#block, filled, this.#values, run, sums);
    else differenceSums(this.#block, filled, this.#values, run, sums);
  }
}

function plainSums(block: Int32Array, filled: number, values: Float32Array, run: GroupRun, sums: Sums): void {
  const { reference, binary, decimal } = run;
  const at = sums.at;
  for (let i = 0; i < filled; i += 1) {
    const packed = block[i] as number;
    values[at + i] = packed === GONE ? Number.NaN : (reference + packed * binary) * decimal;
  }
  sums.at = at + filled;
}

/** Cells without a value do not advance the differences; the first ones with a value are given. */
function differenceSums(
  block: Int32Array,
  filled: number,
  values: Float32Array,
  run: GroupRun,
  sums: Sums,
): void {
  const { reference, binary, decimal, minimum } = run;
  const at = sums.at;
  let i = 0;
  for (; i < filled && sums.seen < run.order; i += 1) {
    if (block[i] === GONE) {
      values[at + i] = Number.NaN;
      continue;
    }
    sums.value = sums.seen === 0 ? run.first : run.second;
    sums.difference = sums.seen === 0 ? 0 : run.second - run.first;
    sums.seen += 1;
    values[at + i] = (reference + sums.value * binary) * decimal;
  }
  let { value, difference, over } = sums;
  // Of order 1 the difference is the packed one alone: what was before is taken off again.
  const keep = run.order === 2 ? -1 : 0;
  for (; i < filled; i += 1) {
    const packed = block[i] as number;
    if (packed === GONE) {
      values[at + i] = Number.NaN;
      continue;
    }
    difference = ((difference & keep) + packed + minimum) | 0;
    value = (value + difference) | 0;
    over |= (difference + NARROW) | (value + NARROW);
    values[at + i] = (reference + value * binary) * decimal;
  }
  sums.value = value;
  sums.difference = difference;
  sums.over = over;
  sums.at = at + filled;
}
