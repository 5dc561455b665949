// The same kernel in AssemblyScript for WebAssembly with 128-bit vectors: what plain.ts and bits.ts do, four cells at a time.
// Compiled by scripts/build-grib-kernel.mjs into ../simd-module.ts. The host lays out the memory and has checked all sizes;
// everything is written up to four cells beyond its end, and read up to sixteen octets beyond the data.

/** For each width (0 to 25) and each bit of an octet to begin at: which octets make four numbers, and what shifts them left. */
const TABLE: usize = 1024;
/** Groups laid out one after the other, until they are summed up. */
const BLOCK: usize = TABLE + 26 * 8 * 32;
const CELLS: i32 = 4096;
/** Where the host's memory begins; 16 cells to spill over. */
export const HEAP: usize = BLOCK + (<usize>CELLS + 16) * 4;

/** A cell without a value; no packed value is as low. */
const GONE: i32 = i32.MIN_VALUE;
const NARROW: i32 = 1 << 30;

// One field at a time; set by `groups`.
let base: f64 = 0;
let binary: f64 = 0;
let decimal: f64 = 0;
let order: i32 = 0;
let first: i32 = 0;
let second: i32 = 0;
let minimum: i32 = 0;
let seen: i32 = 0;
let value: i32 = 0;
let difference: i32 = 0;
let over: i32 = 0;
let out: usize = 0;

/** Fills the table; once, before all else. */
export function start(): void {
  for (let width = 0; width <= 25; width += 1) {
    for (let within = 0; within < 8; within += 1) {
      const row = TABLE + <usize>((width << 3) + within) * 32;
      for (let lane = 0; lane < 4; lane += 1) {
        const bit = within + lane * width;
        // Vectors keep the lowest octet first, the data the highest.
        for (let octet = 0; octet < 4; octet += 1) {
          store<u8>(row + lane * 4 + octet, <u8>((bit >> 3) + 3 - octet));
        }
        store<i32>(row + 16 + lane * 4, 1 << (bit & 7));
      }
    }
  }
}

/** Four numbers of 1 to 25 bits. */
// @ts-ignore: a decorator of the compiler
@inline
function four(data: usize, bit: u32, width: u32, shift: i32): v128 {
  const row = TABLE + <usize>((width << 3) + (bit & 7)) * 32;
  const octets = i8x16.swizzle(v128.load(data + (bit >> 3)), v128.load(row));
  return i32x4.shr_u(i32x4.mul(octets, v128.load(row, 16)), shift);
}

/** One number of 1 to 32 bits. */
// @ts-ignore: a decorator of the compiler
@inline
function one(data: usize, bit: u32, width: u32): u32 {
  const octets = bswap(load<u64>(data + (bit >> 3)));
  return <u32>((octets << (bit & 7)) >> (64 - width));
}

/** Numbers of 0 to 32 bits, one after the other. */
export function bits(data: usize, fromBit: u32, width: u32, count: u32, to: usize): void {
  let bit = fromBit;
  const end = to + (<usize>count << 2);
  if (width == 0) {
    memory.fill(to, 0, <usize>count << 2);
  } else if (width <= 25) {
    const shift = <i32>(32 - width);
    for (let at = to; at < end; at += 16) {
      v128.store(at, four(data, bit, width, shift));
      bit += width << 2;
    }
  } else {
    for (let at = to; at < end; at += 4) {
      store<u32>(at, one(data, bit, width));
      bit += width;
    }
  }
}

/** (base + packed × binary) × decimal for four cells. */
// @ts-ignore: a decorator of the compiler
@inline
function scaled(low: v128, high: v128): v128 {
  const a = f64x2.mul(f64x2.add(f64x2.splat(base), f64x2.mul(low, f64x2.splat(binary))), f64x2.splat(decimal));
  const b = f64x2.mul(f64x2.add(f64x2.splat(base), f64x2.mul(high, f64x2.splat(binary))), f64x2.splat(decimal));
  return v128.shuffle<f32>(f32x4.demote_f64x2_zero(a), f32x4.demote_f64x2_zero(b), 0, 1, 4, 5);
}

// @ts-ignore: a decorator of the compiler
@inline
function scaledSigned(packed: v128): v128 {
  const high = v128.shuffle<i32>(packed, packed, 2, 3, 2, 3);
  return scaled(f64x2.convert_low_i32x4_s(packed), f64x2.convert_low_i32x4_s(high));
}

// @ts-ignore: a decorator of the compiler
@inline
function scaledOne(packed: i32): f32 {
  return <f32>((base + <f64>packed * binary) * decimal);
}

export function scale(toBase: f64, toBinary: f64, toDecimal: f64): void {
  base = toBase;
  binary = toBinary;
  decimal = toDecimal;
}

/** Simply packed values of 0 to 32 bits; `scale` was called. */
export function simple(data: usize, width: u32, count: u32, to: usize): void {
  let bit: u32 = 0;
  const end = to + (<usize>count << 2);
  const shift = <i32>(32 - width);
  for (let at = to; at < end; at += 16) {
    let packed = i32x4.splat(0);
    if (width > 25) {
      packed = i32x4.replace_lane(packed, 0, one(data, bit, width));
      packed = i32x4.replace_lane(packed, 1, one(data, bit + width, width));
      packed = i32x4.replace_lane(packed, 2, one(data, bit + 2 * width, width));
      packed = i32x4.replace_lane(packed, 3, one(data, bit + 3 * width, width));
    } else if (width > 0) {
      packed = four(data, bit, width, shift);
    }
    const high = v128.shuffle<i32>(packed, packed, 2, 3, 2, 3);
    v128.store(at, scaled(f64x2.convert_low_i32x4_u(packed), f64x2.convert_low_i32x4_u(high)));
    bit += width << 2;
  }
}

/** All groups; `scale` was called. Zero where a sum left ±2^30. */
export function groups(
  data: usize,
  fromBit: u32,
  count: i32,
  references: usize,
  widths: usize,
  lengths: usize,
  missingKinds: i32,
  referenceBits: u32,
  ofOrder: i32,
  ofFirst: i32,
  ofSecond: i32,
  ofMinimum: i32,
  to: usize,
): i32 {
  order = ofOrder;
  first = ofFirst;
  second = ofSecond;
  minimum = ofMinimum;
  seen = 0;
  value = 0;
  difference = 0;
  over = 0;
  out = to;
  let bit = fromBit;
  let filled = 0;
  const referenceGone = (<i64>1 << referenceBits) - missingKinds;
  for (let g = 0; g < count; g += 1) {
    const width = load<u32>(widths + (<usize>g << 2));
    const reference = load<i32>(references + (<usize>g << 2));
    let left = load<i32>(lengths + (<usize>g << 2));
    if (width == 0 && missingKinds > 0 && <i64>reference >= referenceGone) {
      clean(0, filled);
      filled = 0;
      gone(left);
      continue;
    }
    while (left > 0) {
      const take = min(left, CELLS - filled);
      if (lay(data, bit, width, reference, filled, take, missingKinds)) {
        // Few groups are missing in part: alone, cell by cell.
        clean(0, filled);
        dirty(filled, filled + take);
        filled = 0;
      } else {
        filled += take;
        if (filled == CELLS) {
          clean(0, filled);
          filled = 0;
        }
      }
      bit += <u32>take * width;
      left -= take;
    }
  }
  clean(0, filled);
  return over >= 0 ? 1 : 0;
}

/** One group, or a part of it, into the block. True where a cell may be missing. */
function lay(data: usize, fromBit: u32, width: u32, reference: i32, from: i32, count: i32, missingKinds: i32): bool {
  const plus = i32x4.splat(reference);
  let at = BLOCK + (<usize>from << 2);
  const end = at + (<usize>count << 2);
  if (width == 0) {
    for (; at < end; at += 16) v128.store(at, plus);
    return false;
  }
  let bit = fromBit;
  const step = width << 2;
  const shift = <i32>(32 - width);
  if (missingKinds == 0) {
    for (; at < end; at += 16) {
      v128.store(at, i32x4.add(four(data, bit, width, shift), plus));
      bit += step;
    }
    return false;
  }
  const last = i32x4.splat((1 << <i32>width) - missingKinds - 1);
  const none = i32x4.splat(GONE);
  let any = i32x4.splat(0);
  for (; at < end; at += 16) {
    const packed = four(data, bit, width, shift);
    const isGone = i32x4.gt_s(packed, last);
    any = v128.or(any, isGone);
    v128.store(at, v128.bitselect(none, i32x4.add(packed, plus), isGone));
    bit += step;
  }
  return v128.any_true(any);
}

/** A run of cells without a value. */
function gone(count: i32): void {
  const end = out + (<usize>count << 2);
  const none = f32x4.splat(f32.NaN);
  let at = out;
  for (; at + 16 <= end; at += 16) v128.store(at, none);
  for (; at < end; at += 4) store<f32>(at, f32.NaN);
  out = end;
}

/** Cells of the block that all have a value. */
function clean(from: i32, to: i32): void {
  let i = from;
  if (seen < order) {
    const given = min(to, from + order - seen);
    dirty(from, given);
    i = given;
  }
  const whole = i + ((to - i) & ~3);
  if (order == 0) {
    for (; i < whole; i += 4) {
      v128.store(out, scaledSigned(v128.load(BLOCK + (<usize>i << 2))));
      out += 16;
    }
  } else if (order == 1) {
    firstOrder(i, whole);
  } else {
    secondOrder(i, whole);
  }
  dirty(whole, to);
}

/** Each lane the sum of itself and those before it. */
// @ts-ignore: a decorator of the compiler
@inline
function running(cells: v128): v128 {
  const zero = i32x4.splat(0);
  const two = i32x4.add(cells, v128.shuffle<i32>(zero, cells, 0, 4, 5, 6));
  return i32x4.add(two, v128.shuffle<i32>(zero, two, 0, 1, 4, 5));
}

function firstOrder(from: i32, to: i32): void {
  const least = i32x4.splat(minimum);
  const narrow = i32x4.splat(NARROW);
  let carried = i32x4.splat(value);
  let outside = i32x4.splat(0);
  let steps = i32x4.splat(difference);
  for (let at = BLOCK + (<usize>from << 2), end = BLOCK + (<usize>to << 2); at < end; at += 16) {
    steps = i32x4.add(v128.load(at), least);
    const values = i32x4.add(running(steps), carried);
    carried = v128.shuffle<i32>(values, values, 3, 3, 3, 3);
    outside = v128.or(outside, v128.or(i32x4.add(values, narrow), i32x4.add(steps, narrow)));
    v128.store(out, scaledSigned(values));
    out += 16;
  }
  value = i32x4.extract_lane(carried, 3);
  difference = i32x4.extract_lane(steps, 3);
  note(outside);
}

function secondOrder(from: i32, to: i32): void {
  const least = i32x4.splat(minimum);
  const narrow = i32x4.splat(NARROW);
  let carried = i32x4.splat(value);
  let slope = i32x4.splat(difference);
  let outside = i32x4.splat(0);
  for (let at = BLOCK + (<usize>from << 2), end = BLOCK + (<usize>to << 2); at < end; at += 16) {
    const steps = i32x4.add(running(i32x4.add(v128.load(at), least)), slope);
    const values = i32x4.add(running(steps), carried);
    slope = v128.shuffle<i32>(steps, steps, 3, 3, 3, 3);
    carried = v128.shuffle<i32>(values, values, 3, 3, 3, 3);
    outside = v128.or(outside, v128.or(i32x4.add(values, narrow), i32x4.add(steps, narrow)));
    v128.store(out, scaledSigned(values));
    out += 16;
  }
  value = i32x4.extract_lane(carried, 3);
  difference = i32x4.extract_lane(slope, 3);
  note(outside);
}

function note(outside: v128): void {
  if (i32x4.bitmask(outside) != 0) over = GONE;
}

/** Cells of the block one by one: some may have no value, and the first ones are given. */
function dirty(from: i32, to: i32): void {
  for (let i = from; i < to; i += 1) {
    const packed = load<i32>(BLOCK + (<usize>i << 2));
    if (packed == GONE) {
      store<f32>(out, f32.NaN);
    } else {
      store<f32>(out, scaledOne(next(packed)));
    }
    out += 4;
  }
}

// @ts-ignore: a decorator of the compiler
@inline
function next(packed: i32): i32 {
  if (order == 0) return packed;
  if (seen < order) {
    difference = seen == 0 ? 0 : second - first;
    value = seen == 0 ? first : second;
    seen += 1;
    return value;
  }
  difference = (order == 2 ? difference : 0) + packed + minimum;
  value += difference;
  over |= (difference + NARROW) | (value + NARROW);
  return value;
}
