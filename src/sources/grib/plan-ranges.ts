// Which stretches of a file to ask for: messages that are wanted, neighbours together, a small gap read rather than asked around.

import { GribFault } from './fault.ts';
import type { IndexEntry } from './index-lines.ts';

export interface ByteRange {
  readonly firstByte: number;
  /** Null: to the end of the file. */
  readonly lastByte: number | null;
  /** What is wanted of it, in the order of the file. */
  readonly entries: readonly IndexEntry[];
}

export interface RangeRules {
  /** Bytes of others that may be read between two messages that are wanted. */
  readonly gapBytes: number;
  /** Bytes of one range; a larger message is refused, a larger run is split. The last message of a file has no known length. */
  readonly mostBytes: number;
}

/** `entries`: the whole index. Throws GribFault `too-large` where one message alone is larger than a range may be. */
export function planRanges(
  entries: readonly IndexEntry[],
  isWanted: (entry: IndexEntry) => boolean,
  rules: RangeRules,
): ByteRange[] {
  const ranges: ByteRange[] = [];
  for (const entry of entries) {
    if (!isWanted(entry)) continue;
    const bytes = (entry.lastByte ?? entry.firstByte) - entry.firstByte + 1;
    if (bytes > rules.mostBytes) {
      throw new GribFault(
        'too-large',
        `message ${entry.message} has ${bytes} bytes, allowed ${rules.mostBytes}`,
        entry.firstByte,
      );
    }
    const open = ranges.at(-1);
    if (open && joins(open, entry, rules)) {
      ranges[ranges.length - 1] = { ...open, lastByte: entry.lastByte, entries: [...open.entries, entry] };
    } else {
      ranges.push({ firstByte: entry.firstByte, lastByte: entry.lastByte, entries: [entry] });
    }
  }
  return ranges;
}

function joins(open: ByteRange, entry: IndexEntry, { gapBytes, mostBytes }: RangeRules): boolean {
  // Fields of one message share its bytes.
  if (open.entries.at(-1)?.firstByte === entry.firstByte) return true;
  if (open.lastByte === null || entry.lastByte === null) return false;
  return entry.firstByte - open.lastByte - 1 <= gapBytes && entry.lastByte - open.firstByte + 1 <= mostBytes;
}

/** `bytes=0-99`, `bytes=100-` (RFC 9110, 14.1.2). */
export const rangeHeader = ({ firstByte, lastByte }: Pick<ByteRange, 'firstByte' | 'lastByte'>): string =>
  `bytes=${firstByte}-${lastByte ?? ''}`;
