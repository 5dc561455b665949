// One section of a message, read by the octet numbers of the WMO Manual on Codes (FM 92 GRIB; the first octet is 1).

import { GribFault } from './fault.ts';

export class Section {
  readonly number: number;
  /** Offset in the bytes that were given. */
  readonly start: number;
  readonly length: number;
  readonly bytes: Uint8Array;
  readonly #view: DataView;

  /** `start + length` must lie within `bytes`; `view` is of the same bytes. */
  constructor(bytes: Uint8Array, start: number, length: number, number: number, view = viewOf(bytes)) {
    this.bytes = bytes;
    this.start = start;
    this.length = length;
    this.number = number;
    this.#view = view;
  }

  get end(): number {
    return this.start + this.length;
  }

  /** Offset of an octet in the bytes that were given. */
  byteOf(octet: number): number {
    return this.start + octet - 1;
  }

  #at(octet: number, size: number): number {
    const at = this.start + octet - 1;
    if (octet - 1 + size > this.length) {
      throw new GribFault(
        'truncated',
        `section ${this.number} has ${this.length} octets, octet ${octet + size - 1} is asked of it`,
        at,
      );
    }
    return at;
  }

  u8(octet: number): number {
    return this.#view.getUint8(this.#at(octet, 1));
  }

  u16(octet: number): number {
    return this.#view.getUint16(this.#at(octet, 2));
  }

  u32(octet: number): number {
    return this.#view.getUint32(this.#at(octet, 4));
  }

  /** Sign in the highest bit, magnitude below it (regulation 92.1.5). */
  s8(octet: number): number {
    return signed(this.u8(octet), 0x80);
  }

  s16(octet: number): number {
    return signed(this.u16(octet), 0x8000);
  }

  s32(octet: number): number {
    return signed(this.u32(octet), 0x8000_0000);
  }

  f32(octet: number): number {
    return this.#view.getFloat32(this.#at(octet, 4));
  }

  /** Sign and magnitude over so many octets; none are zero. */
  sN(octet: number, octets: number): number {
    if (octets === 0) return 0;
    let value = 0;
    for (let i = 0; i < octets; i += 1) value = value * 256 + this.u8(octet + i);
    return signed(value, 2 ** (8 * octets - 1));
  }

  fault(kind: 'malformed' | 'unsupported' | 'truncated', what: string, octet: number): GribFault {
    return new GribFault(kind, `section ${this.number}: ${what}`, this.byteOf(octet));
  }
}

/** One for all sections of a message: making views takes longer than reading a header. */
export const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.length);

const signed = (value: number, signBit: number): number => (value >= signBit ? 0 - (value - signBit) : value);

export const MISSING_U8 = 0xff;
export const MISSING_U32 = 0xffff_ffff;
