// Writing octets and bits as the WMO Manual on Codes (WMO-No. 306, Volume I.2, FM 92 GRIB) lays them out: most significant
// first, negative numbers by a sign bit (regulation 92.1.5).

export class Octets {
  readonly out: number[] = [];

  u(octets: number, value: number): this {
    for (let i = octets - 1; i >= 0; i -= 1) this.out.push(Math.floor(value / 256 ** i) % 256);
    return this;
  }

  s(octets: number, value: number): this {
    if (octets === 0) return this;
    return this.u(octets, value < 0 ? 2 ** (8 * octets - 1) - value : value);
  }

  f32(value: number): this {
    const view = new DataView(new ArrayBuffer(4));
    view.setFloat32(0, value);
    return this.u(4, view.getUint32(0));
  }

  add(octets: Iterable<number>): this {
    for (const octet of octets) this.out.push(octet);
    return this;
  }
}

/** A section: its length, its number, its contents. */
export const section = (number: number, contents: Octets): number[] =>
  new Octets()
    .u(4, contents.out.length + 5)
    .u(1, number)
    .add(contents.out).out;

/** Numbers of their own widths one after the other, the last octet filled up with zeros. */
export function packedBits(numbers: readonly { value: number; width: number }[]): number[] {
  const out: number[] = [];
  let octet = 0;
  let filled = 0;
  for (const { value, width } of numbers) {
    for (let bit = width - 1; bit >= 0; bit -= 1) {
      octet = octet * 2 + (Math.floor(value / 2 ** bit) % 2);
      filled += 1;
      if (filled === 8) {
        out.push(octet);
        octet = 0;
        filled = 0;
      }
    }
  }
  if (filled > 0) out.push(octet * 2 ** (8 - filled));
  return out;
}

export const sameWidth = (values: readonly number[], width: number): number[] =>
  packedBits(values.map((value) => ({ value, width })));

/** How many bits a number takes; 0 for zero. */
export const bitsOf = (value: number): number => (value === 0 ? 0 : Math.floor(Math.log2(value)) + 1);
