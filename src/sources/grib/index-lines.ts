// The index beside a GRIB2 file, a line a field: number, first byte, reference time, element, level, forecast, qualifiers.
// The last byte is told by the next message's first one.

import { GribFault } from './fault.ts';

export interface IndexEntry {
  /** Number of the message; fields of one message share it. */
  readonly message: number;
  readonly firstByte: number;
  /** Null for the last message: it goes on to the end of the file. */
  readonly lastByte: number | null;
  readonly referenceMs: number;
  /** As the index writes them: `TMP`, `2 m above ground`, `24 hour fcst`. */
  readonly element: string;
  readonly level: string;
  readonly forecast: string;
  /** What follows: empty for the one forecast, else `ens std dev`, `50% level`, `prob >0.254` … */
  readonly qualifiers: readonly string[];
}

const MOST_LINES = 20_000;
const LINE =
  /^(\d{1,6})(?:\.\d{1,3})?:(\d{1,15}):d=(\d{4})(0[1-9]|1[0-2])(0[1-9]|[12]\d|3[01])([01]\d|2[0-3]):([^:]+):([^:]+):([^:]+)(?::(.*))?$/;

/** All or nothing: with a line that cannot be read nobody knows where the message before it ends. Throws GribFault. */
export function readIndex(text: string): IndexEntry[] {
  const entries: (IndexEntry & { lastByte: number | null })[] = [];
  let at = 0;
  for (const raw of text.split('\n')) {
    const line = raw.endsWith('\r') ? raw.slice(0, -1) : raw;
    if (line !== '') {
      if (entries.length >= MOST_LINES)
        throw new GribFault('too-large', `an index of more than ${MOST_LINES} lines`, at);
      entries.push(entryOf(line, entries.at(-1), at));
    }
    at += raw.length + 1;
  }
  let next: number | null = null;
  for (let n = entries.length - 1; n >= 0; n -= 1) {
    const entry = entries[n] as (typeof entries)[number];
    entries[n] = { ...entry, lastByte: next === null ? null : next - 1 };
    if (entry.firstByte !== entries[n - 1]?.firstByte) next = entry.firstByte;
  }
  return entries;
}

function entryOf(line: string, before: IndexEntry | undefined, at: number): IndexEntry {
  const found = LINE.exec(line);
  if (!found)
    throw new GribFault('malformed', `an index line reads ${JSON.stringify(line.slice(0, 60))}`, at);
  const [, message, firstByte, year, month, day, hour, element = '', level = '', forecast = '', rest = ''] =
    found;
  const entry: IndexEntry = {
    message: Number(message),
    firstByte: Number(firstByte),
    lastByte: null,
    referenceMs: Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour)),
    element,
    level,
    forecast,
    qualifiers: rest.split(':').filter((part) => part !== ''),
  };
  const isSame = before?.message === entry.message && before.firstByte === entry.firstByte;
  const isNext = before
    ? entry.message > before.message && entry.firstByte > before.firstByte
    : entry.message >= 1;
  if (!(isSame || isNext))
    throw new GribFault('malformed', `message ${entry.message} of an index is out of order`, at);
  return entry;
}
