import { decodeField, gridOf } from '#sources/grib/field.ts';
import { findMessages } from '#sources/grib/find-messages.ts';
import type { Kernel } from '#sources/grib/kernel/kernel.ts';
import { Meter } from '#sources/grib/limits.ts';
import { type RawField, walkSections } from '#sources/grib/walk-sections.ts';

/** All fields of bytes; throws the first fault. */
export function fieldsOf(bytes: Uint8Array): RawField[] {
  const { messages, faults } = findMessages(bytes);
  if (faults[0]) throw faults[0];
  return messages.flatMap((message) => walkSections(bytes, message, new Meter()));
}

/** The values of every field, kept. */
export const decodedBy = (kernel: Kernel, bytes: Uint8Array): Float32Array[] =>
  fieldsOf(bytes).map((raw) => decodeField(raw, gridOf(raw), kernel).slice());

/** Bits of single precision, so that NaN, 0 and -0 compare as they are. */
export const bitsOfValues = (values: ArrayLike<number>): number[] =>
  Array.from(new Int32Array(Float32Array.from(values).buffer));
