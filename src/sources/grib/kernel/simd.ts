// The kernel in WebAssembly with 128-bit vectors. Its memory holds one field: data, group columns, values.

import type { FieldMemory, GroupColumn, GroupRun, Kernel, SimpleRun } from './kernel.ts';
import { SIMD_MODULE_BASE64 } from './simd-module.ts';

/** As much of the platform as is used here; the compiler's library has it only together with a browser. */
declare const WebAssembly: {
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Instance: new (module: object) => { readonly exports: unknown };
};

/** What assembly/unpack.ts exports. */
interface Exports {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number };
  readonly HEAP: { readonly value: number };
  start(): void;
  bits(data: number, fromBit: number, width: number, count: number, to: number): void;
  scale(reference: number, binary: number, decimal: number): void;
  simple(data: number, width: number, count: number, to: number): void;
  groups(
    data: number,
    fromBit: number,
    count: number,
    references: number,
    widths: number,
    lengths: number,
    missingKinds: number,
    referenceBits: number,
    order: number,
    first: number,
    second: number,
    minimum: number,
    to: number,
  ): number;
}

/** Vectors reach beyond the data when they read, and beyond the last cell when they write. */
const SPARE = 32;
const PAGE = 65_536;
const CELL = 4;

const wholeVectors = (octets: number): number => (octets + SPARE + 15) & ~15;

let compiled: object | null = null;

export class SimdKernel implements Kernel {
  readonly name = 'simd';
  readonly #exports: Exports;
  readonly #heap: number;
  #at = { data: 0, references: 0, widths: 0, lengths: 0, values: 0 };

  constructor() {
    compiled ??= new WebAssembly.Module(
      Uint8Array.from(atob(SIMD_MODULE_BASE64), (octet) => octet.charCodeAt(0)),
    );
    this.#exports = new WebAssembly.Instance(compiled).exports as unknown as Exports;
    this.#heap = this.#exports.HEAP.value;
    this.#exports.start();
  }

  get keptBytes(): number {
    return this.#exports.memory.buffer.byteLength;
  }

  begin(data: Uint8Array, groups: number, cells: number): FieldMemory {
    const column = wholeVectors(CELL * groups);
    const references = this.#heap + wholeVectors(data.length);
    const [widths, lengths, values] = [references + column, references + 2 * column, references + 3 * column];
    this.#at = { data: this.#heap, references, widths, lengths, values };
    this.#grow(values + wholeVectors(CELL * cells));
    const { buffer } = this.#exports.memory;
    new Uint8Array(buffer, this.#heap, data.length).set(data);
    return {
      references: new Uint32Array(buffer, references, groups),
      widths: new Uint32Array(buffer, widths, groups),
      lengths: new Uint32Array(buffer, lengths, groups),
      values: new Float32Array(buffer, values, cells),
    };
  }

  #grow(octets: number): void {
    const { memory } = this.#exports;
    const pages = Math.ceil((octets - memory.buffer.byteLength) / PAGE);
    if (pages > 0) memory.grow(pages);
  }

  bits(fromBit: number, width: number, count: number, into: GroupColumn): void {
    this.#exports.bits(this.#at.data, fromBit, width, count, this.#at[into]);
  }

  simple({ count, bits, reference, binary, decimal }: SimpleRun): void {
    this.#exports.scale(reference, binary, decimal);
    this.#exports.simple(this.#at.data, bits, count, this.#at.values);
  }

  groups(run: GroupRun): boolean {
    const { data, references, widths, lengths, values } = this.#at;
    this.#exports.scale(run.reference, run.binary, run.decimal);
    const narrow = this.#exports.groups(
      data,
      run.firstBit,
      run.groups,
      references,
      widths,
      lengths,
      run.missingKinds,
      run.referenceBits,
      run.order,
      run.first,
      run.second,
      run.minimum,
      values,
    );
    return narrow !== 0;
  }
}
