// Section 6: which points have a value. Points without one are NaN.

import type { RawField } from './walk-sections.ts';

/** One bit a point, from the first octet's highest; null where every point has a value. */
export type Bitmap = Uint8Array | null;

/** Throws GribFault. `points`: of the grid; `count`: of values in section 7. */
export function readBitmap({ bitmap, lastBitmap }: RawField, points: number, count: number): Bitmap {
  const indicator = bitmap.u8(6);
  if (indicator === 255) {
    if (count !== points)
      throw bitmap.fault('malformed', `${count} values for ${points} points without a bitmap`, 6);
    return null;
  }
  if (indicator !== 0 && indicator !== 254)
    throw bitmap.fault('unsupported', `predefined bitmap ${indicator} is not read`, 6);
  const source = indicator === 0 ? bitmap : lastBitmap;
  if (!source) throw bitmap.fault('malformed', 'the bitmap before is asked for, and there is none', 6);
  const octets = Math.ceil(points / 8);
  if (source.length - 6 < octets) {
    throw bitmap.fault(
      'truncated',
      `a bitmap of ${points} points takes ${octets} octets, ${source.length - 6} are there`,
      6,
    );
  }
  const bits = source.bytes.subarray(source.start + 6, source.start + 6 + octets);
  const present = countOnes(bits, points);
  if (present !== count)
    throw bitmap.fault('malformed', `the bitmap has ${present} points, section 5 says ${count}`, 6);
  return bits;
}

/** Ones of each octet. */
const ONES = Uint8Array.from({ length: 256 }, (_, octet) => octet.toString(2).replaceAll('0', '').length);

function countOnes(bits: Uint8Array, points: number): number {
  const whole = points >>> 3;
  let ones = 0;
  for (let i = 0; i < whole; i += 1) ones += ONES[bits[i] as number] as number;
  const rest = points & 7;
  // Bits after the last point are padding.
  if (rest > 0) ones += ONES[(bits[whole] as number) >>> (8 - rest)] as number;
  return ones;
}

/** Spreads `count` values at the beginning over all points, in place. */
export function spread(values: Float32Array, bits: Uint8Array, count: number): void {
  let from = count - 1;
  // From the end, since a value never stands behind its point.
  for (let point = values.length - 1; point >= 0; point -= 1) {
    const has = ((bits[point >>> 3] as number) >>> (7 - (point & 7))) & 1;
    if (has === 1) {
      values[point] = values[from] as number;
      from -= 1;
    } else {
      values[point] = Number.NaN;
    }
  }
}
