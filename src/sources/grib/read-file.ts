// The fields of a whole file. A message that cannot be read spoils none of the others, and is told.

import { GribFault } from './fault.ts';
import { findMessages } from './find-messages.ts';
import { type GribLimits, Meter, USUAL_LIMITS } from './limits.ts';
import { type RawField, walkSections } from './walk-sections.ts';

export interface FileFields {
  readonly fields: readonly RawField[];
  readonly faults: readonly GribFault[];
}

export function readFile(bytes: Uint8Array, limits: GribLimits = USUAL_LIMITS): FileFields {
  const found = findMessages(bytes);
  const fields: RawField[] = [];
  const faults = [...found.faults];
  for (const message of found.messages) {
    try {
      fields.push(...walkSections(bytes, message, new Meter(limits)));
    } catch (fault) {
      if (!(fault instanceof GribFault)) throw fault;
      faults.push(fault);
    }
  }
  return { fields, faults };
}
