// Messages within a file. Files of the gateway wrap each one in headings, others hold nothing else: what counts is `GRIB`,
// edition 2, the length that follows and the `7777` at its end. What begins so and is none is told, never passed over.

import { GribFault } from './fault.ts';

export interface FoundMessage {
  readonly start: number;
  readonly length: number;
}

export interface FoundMessages {
  readonly messages: readonly FoundMessage[];
  readonly faults: readonly GribFault[];
}

const HEAD_OCTETS = 16;
/** The smallest message that the standard allows is larger. */
const LEAST_OCTETS = 16 + 21 + 4;
/** A file that begins so often and never holds to it is not read further. */
const MOST_FAULTS = 100;

export function findMessages(bytes: Uint8Array): FoundMessages {
  const messages: FoundMessage[] = [];
  const faults: GribFault[] = [];
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  for (let at = nextGrib(bytes, 0); at >= 0; ) {
    if (faults.length >= MOST_FAULTS) {
      faults.push(new GribFault('too-large', `more than ${MOST_FAULTS} faults, not read further`, at));
      break;
    }
    const found = messageAt(bytes, view, at);
    if (found instanceof GribFault) {
      faults.push(found);
      at = nextGrib(bytes, at + 4);
    } else {
      messages.push(found);
      at = nextGrib(bytes, at + found.length);
    }
  }
  return { messages, faults };
}

function messageAt(bytes: Uint8Array, view: DataView, start: number): FoundMessage | GribFault {
  const left = bytes.length - start;
  if (left < HEAD_OCTETS)
    return new GribFault('truncated', `a message ends within its first ${HEAD_OCTETS} octets`, start);
  const edition = bytes[start + 7] as number;
  if (edition !== 2) return new GribFault('unsupported', `GRIB edition ${edition}`, start + 7);
  const length = view.getUint32(start + 8) * 2 ** 32 + view.getUint32(start + 12);
  if (length < LEAST_OCTETS)
    return new GribFault('malformed', `a message claims ${length} octets`, start + 8);
  if (length > left) {
    return new GribFault('truncated', `a message claims ${length} octets, ${left} are there`, start + 8);
  }
  if (view.getUint32(start + length - 4) !== SEVENS) {
    return new GribFault('malformed', 'a message does not end with 7777', start + length - 4);
  }
  return { start, length };
}

/** `7777` */
export const SEVENS = 0x3737_3737;
const G = 0x47;

function nextGrib(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(G, from); at >= 0; at = bytes.indexOf(G, at + 1)) {
    if (bytes[at + 1] === 0x52 && bytes[at + 2] === 0x49 && bytes[at + 3] === 0x42) return at;
  }
  return -1;
}
