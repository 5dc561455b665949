// Messages with faults put in, one after the other from a seed, and what reading them costs.

import fc from 'fast-check';
import { meaningOf } from '#sources/grib/elements.ts';
import { GribFault } from '#sources/grib/fault.ts';
import { decodeField, gridOf, readHead } from '#sources/grib/field.ts';
import type { Kernel } from '#sources/grib/kernel/kernel.ts';
import { PlainKernel } from '#sources/grib/kernel/plain.ts';
import { SimdKernel } from '#sources/grib/kernel/simd.ts';
import { type GribLimits, Meter } from '#sources/grib/limits.ts';
import { readFile } from '#sources/grib/read-file.ts';
import { placeOn } from '#sources/grib/sample.ts';
import type { RawField } from '#sources/grib/walk-sections.ts';
import { encodeMessage } from './encode.ts';
import { field } from './field-arbitrary.ts';

/** Numbers in [0, below), the same for a seed (mulberry32, public domain). */
export function randomOf(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * below);
  };
}

/** Whole messages of every packing to begin with. */
export const soundMessages = (seed: number, count: number): Uint8Array[] =>
  fc
    .sample(fc.array(field(12, 40), { minLength: 1, maxLength: 3 }), { seed, numRuns: count })
    .map((fields) => encodeMessage({ discipline: 0, fields }));

const ODD = [0, 1, 2, 3, 25, 26, 31, 32, 33, 64, 127, 128, 254, 255];
const ODD_WORDS = [
  0, 1, 5, 0x7fff_ffff, 0x8000_0000, 0xffff_ffff, 0xffff_fffe, 0x0100_0000, 1_000_000, 70_000,
];

/** One to four faults: octets, words, lengths, pieces left out, doubled or taken from another message. */
export function mutated(sound: readonly Uint8Array[], random: (below: number) => number): Uint8Array {
  let bytes = Uint8Array.from(sound[random(sound.length)] ?? []);
  const other = sound[random(sound.length)] ?? bytes;
  for (let faults = 1 + random(4); faults > 0; faults -= 1) bytes = withFault(bytes, other, random);
  // So that most of them are not refused at the door: the length and the end are mended.
  if (random(8) > 0 && bytes.length > 20) mend(bytes);
  return bytes;
}

function withFault(
  bytes: Uint8Array<ArrayBuffer>,
  other: Uint8Array,
  random: (below: number) => number,
): Uint8Array<ArrayBuffer> {
  // Headers are few octets, and most faults should be theirs.
  const at = random(random(3) > 0 ? Math.min(bytes.length, 300) : bytes.length);
  const length = random(random(2) > 0 ? 8 : 200);
  switch (random(8)) {
    case 0:
      bytes[at] = random(256);
      return bytes;
    case 1:
      bytes[at] = ODD[random(ODD.length)] ?? 0;
      return bytes;
    case 2:
      if (at + 4 <= bytes.length)
        new DataView(bytes.buffer).setUint32(at, ODD_WORDS[random(ODD_WORDS.length)] ?? 0);
      return bytes;
    case 3:
      bytes[at] = (bytes[at] ?? 0) ^ (1 << random(8));
      return bytes;
    case 4:
      return joined(bytes.subarray(0, at), bytes.subarray(at + length));
    case 5:
      return joined(bytes.subarray(0, at + length), bytes.subarray(at));
    case 6:
      return grown(bytes, random);
    default:
      return joined(bytes.subarray(0, at), other.subarray(Math.min(at, other.length)));
  }
}

const SIDES = [1, 2, 60, 300, 512, 513, 4000, 65_536, 1_000_000];

/** A message that claims many more cells, and says so in all places alike; often in no bits at all. */
function grown(bytes: Uint8Array<ArrayBuffer>, random: (below: number) => number): Uint8Array<ArrayBuffer> {
  const view = new DataView(bytes.buffer);
  const [ni, nj] = [SIDES[random(SIDES.length)] ?? 1, SIDES[random(SIDES.length)] ?? 1];
  const cells = (ni * nj) % 2 ** 32;
  for (let at = 16, length = 5; at + 5 < bytes.length && length >= 5; at += length) {
    const number = bytes[at + 4];
    const put = (octet: number, value: number): void => {
      if (at + octet + 3 <= bytes.length) view.setUint32(at + octet - 1, value);
    };
    if (number === 3)
      for (const [octet, value] of [
        [7, cells],
        [31, ni],
        [35, nj],
      ] as const)
        put(octet, value);
    if (number === 5) growPacking(cells, put, random);
    if (number === 5 && random(3) > 0) for (const octet of [20, 37, 47]) bytes[at + octet - 1] = 0;
    if (number === 6 && random(2) > 0) bytes[at + 5] = 255;
    length = view.getUint32(at);
  }
  return bytes;
}

function growPacking(
  cells: number,
  put: (octet: number, value: number) => void,
  random: (below: number) => number,
): void {
  const groups = random(2) > 0 ? cells : random(1 + Math.min(cells, 1000));
  put(6, cells);
  put(32, groups);
  if (random(2) > 0) put(38, 1);
  if (random(2) > 0) put(43, cells - groups + 1);
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(a.length + b.length);
  bytes.set(a);
  bytes.set(b, a.length);
  return bytes;
}

function mend(bytes: Uint8Array<ArrayBuffer>): void {
  const view = new DataView(bytes.buffer);
  view.setUint32(0, 0x4752_4942);
  bytes[7] = 2;
  view.setUint32(8, 0);
  view.setUint32(12, bytes.length);
  view.setUint32(bytes.length - 4, 0x3737_3737);
}

export interface Cost {
  runs: number;
  /** Fields that decoded all the same, and faults by kind. */
  decoded: number;
  readonly faults: Record<string, number>;
  mostSteps: number;
  mostBytes: number;
  mostKeptBytes: number;
  slowestMs: number;
}

export const noCost = (): Cost => ({
  runs: 0,
  decoded: 0,
  faults: {},
  mostSteps: 0,
  mostBytes: 0,
  mostKeptBytes: 0,
  slowestMs: 0,
});

export const FUZZ_LIMITS: GribLimits = { mostBytes: 2 ** 20, mostSteps: 2 ** 20 };

/** Both kernels; values that differ, and anything thrown that is no GribFault within the bytes, throw out of here. */
export class Reader {
  readonly #kernels: readonly [Kernel, Kernel] = [new PlainKernel(), new SimdKernel()];
  readonly cost = noCost();

  read(bytes: Uint8Array): void {
    const before = performance.now();
    this.cost.runs += 1;
    const { fields, faults } = readFile(bytes, FUZZ_LIMITS);
    for (const fault of faults) this.#note(fault, bytes);
    for (const raw of fields) this.#attempt(bytes, () => this.#decode(raw, bytes));
    this.cost.slowestMs = Math.max(this.cost.slowestMs, performance.now() - before);
  }

  #decode(raw: RawField, bytes: Uint8Array): void {
    this.#attempt(bytes, () => meaningOf(readHead(raw), raw));
    const grid = gridOf(raw);
    const place = placeOn(grid, 35, -100);
    const [plain, simd] = this.#kernels.map((kernel) =>
      this.#outcome(() => {
        const meter = new Meter(FUZZ_LIMITS);
        try {
          return decodeField(raw, grid, kernel, meter);
        } finally {
          this.cost.mostSteps = Math.max(this.cost.mostSteps, meter.steps);
          this.cost.mostBytes = Math.max(this.cost.mostBytes, meter.bytes);
          this.cost.mostKeptBytes = Math.max(this.cost.mostKeptBytes, kernel.keptBytes);
        }
      }),
    );
    if (plain instanceof Float32Array && simd instanceof Float32Array) {
      if (Buffer.compare(octetsOf(plain), octetsOf(simd)) !== 0) throw new Error('the kernels differ');
      this.cost.decoded += 1;
      if (place && !(place.nearest >= 0 && place.nearest < plain.length))
        throw new Error('a place in no cell');
    } else if (!(plain instanceof GribFault && simd instanceof GribFault && plain.message === simd.message)) {
      throw new Error(`the kernels differ: ${String(plain)}, ${String(simd)}`, { cause: plain });
    } else {
      throw plain;
    }
  }

  #outcome(run: () => Float32Array): unknown {
    try {
      return run();
    } catch (fault) {
      return fault;
    }
  }

  #attempt(bytes: Uint8Array, run: () => unknown): void {
    try {
      run();
    } catch (fault) {
      this.#note(fault, bytes);
    }
  }

  #note(fault: unknown, bytes: Uint8Array): void {
    if (!(fault instanceof GribFault)) throw fault;
    if (!(fault.byte >= 0 && fault.byte <= bytes.length))
      throw new Error(`byte ${fault.byte} of ${bytes.length}`, { cause: fault });
    this.cost.faults[fault.kind] = (this.cost.faults[fault.kind] ?? 0) + 1;
  }
}

const octetsOf = ({ buffer, byteOffset, byteLength }: Float32Array): Buffer =>
  Buffer.from(buffer, byteOffset, byteLength);
