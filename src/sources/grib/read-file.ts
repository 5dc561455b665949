// The fields of a whole file. A message that cannot be read spoils none of the others, and is told.

import { GribFault } from './fault.ts';
import { findMessages } from './find-messages.ts';
import { type GribLimits, Meter, USUAL_LIMITS } from './limits.ts';
import { type RawField, walkSections } from './walk-sections.ts';

export interface FileFields {
  readonly fields: readonly RawField[];
  readonly faults: readonly GribFault[];
}

/** `limits` hold for all sections together; each field is decoded within limits of its own. */
export function readFile(bytes: Uint8Array, limits: GribLimits = USUAL_LIMITS): FileFields {
  const found = findMessages(bytes);
  const fields: RawField[] = [];
  const faults = [...found.faults];
  const meter = new Meter(limits);
  for (const message of found.messages) {
    try {
      for (const field of walkSections(bytes, message, meter)) fields.push(field);
    } catch (fault) {
      if (!(fault instanceof GribFault)) throw fault;
      faults.push(fault);
      // Used up: the messages after it would be refused alike.
      if (fault.kind === 'too-large') break;
    }
  }
  return { fields, faults };
}
