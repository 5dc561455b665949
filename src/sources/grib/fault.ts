// Every way in which GRIB2 data can be refused: what, and at which byte of the bytes that were given.

/**
 * `truncated`: it ends before it should. `malformed`: it contradicts itself or the standard. `unsupported`: the standard
 * allows it and nothing here reads it. `too-large`: it asks for more than the caller allows. `unknown`: it is no element
 * that is known here.
 */
export type GribFaultKind = 'truncated' | 'malformed' | 'unsupported' | 'too-large' | 'unknown';

export class GribFault extends Error {
  override readonly name = 'GribFault';
  readonly kind: GribFaultKind;
  /** Offset from the beginning of the bytes that were given. */
  readonly byte: number;

  constructor(kind: GribFaultKind, what: string, byte: number) {
    super(`${what} (byte ${byte})`);
    this.kind = kind;
    this.byte = byte;
  }
}
