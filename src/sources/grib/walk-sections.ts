// The sections of one message, and the fields that they make: sections 2 to 7, 3 to 7 or 4 to 7 may repeat (FM 92, 92.1.3),
// and what is not repeated holds on.

import { GribFault } from './fault.ts';
import { type FoundMessage, SEVENS } from './find-messages.ts';
import type { Meter } from './limits.ts';
import { Section, viewOf } from './section.ts';

/** The sections of one field, unread. */
export interface RawField {
  readonly message: FoundMessage;
  readonly discipline: number;
  readonly identification: Section;
  readonly grid: Section;
  readonly product: Section;
  readonly representation: Section;
  readonly bitmap: Section;
  /** The last section 6 of the message that brought a bitmap of its own, before or at this field. */
  readonly lastBitmap: Section | null;
  readonly data: Section;
}

/** What a section takes here, its share of a field included: a message of nothing but sections must not take it all. */
const SECTION_BYTES = 250;

/** Which sections may follow which. */
const NEXT: Readonly<Record<number, readonly number[]>> = {
  1: [2, 3],
  2: [3],
  3: [4],
  4: [5],
  5: [6],
  6: [7],
  7: [2, 3, 4],
};

interface Open {
  grid?: Section;
  product?: Section;
  representation?: Section;
  bitmap?: Section;
}

/** The fields of a message that `findMessages` found, headers unread. Throws GribFault. */
export function walkSections(bytes: Uint8Array, message: FoundMessage, meter: Meter): RawField[] {
  const end = message.start + message.length - 4;
  const stretch = { bytes, view: viewOf(bytes), end };
  const fields: RawField[] = [];
  const open: Open = {};
  const identification = sectionAt(stretch, message.start + 16, 0, [1]);
  let lastBitmap: Section | null = null;
  let section = identification;
  while (section.end < end) {
    meter.walk(1, 'the sections of a message', section.end);
    meter.hold(SECTION_BYTES, 'the sections of a message', section.end);
    section = sectionAt(stretch, section.end, section.number, NEXT[section.number] ?? []);
    if (section.number === 3) open.grid = section;
    if (section.number === 4) open.product = section;
    if (section.number === 5) open.representation = section;
    if (section.number === 6) {
      open.bitmap = section;
      if (section.u8(6) === 0) lastBitmap = section;
    }
    if (section.number !== 7) continue;
    const { grid, product, representation, bitmap } = open;
    if (!(grid && product && representation && bitmap))
      throw new GribFault('malformed', 'data before their headers', section.start);
    const discipline = bytes[message.start + 6] as number;
    fields.push({
      message,
      discipline,
      identification,
      grid,
      product,
      representation,
      bitmap,
      lastBitmap,
      data: section,
    });
  }
  if (section.number !== 7)
    throw new GribFault('malformed', `a message ends after section ${section.number}`, end);
  return fields;
}

/** The bytes of a message up to its own end. */
interface Stretch {
  readonly bytes: Uint8Array;
  readonly view: DataView;
  readonly end: number;
}

function sectionAt(
  { bytes, view, end }: Stretch,
  start: number,
  after: number,
  allowed: readonly number[],
): Section {
  const left = end - start;
  if (left < 5) throw new GribFault('truncated', `${left} octets are left for a section`, start);
  const number = bytes[start + 4] as number;
  const length = view.getUint32(start);
  if (length === SEVENS)
    throw new GribFault('malformed', 'a message ends before the length that it claims', start);
  if (!allowed.includes(number)) {
    throw new GribFault(
      'malformed',
      `section ${number} after section ${after}, expected ${allowed.join(' or ')}`,
      start + 4,
    );
  }
  if (length < 5) throw new GribFault('malformed', `section ${number} claims ${length} octets`, start);
  if (length > left) {
    throw new GribFault('truncated', `section ${number} claims ${length} octets, ${left} are left`, start);
  }
  return new Section(bytes, start, length, number, view);
}
