// Recorded answers of the real service, where they are at hand: read from beside the repository, never copied into it.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe } from 'vitest';

const FOLDER = join(import.meta.dirname, '../../../shared/data/nws');
const present = existsSync(FOLDER);
if (!present) console.log('skipped: the recorded NWS answers (../shared/data/nws) are not at hand');

/** A suite over the recorded answers; skipped, with a printed reason, where they are not at hand. */
export const describeRecorded = describe.skipIf(!present);

/** Names of the recorded files that begin so. */
export const recordedNames = (beginning: string): string[] =>
  present
    ? readdirSync(FOLDER)
        .filter((name) => name.startsWith(beginning) && name.endsWith('.json'))
        .sort()
    : [];

/** Any instant on the hour; the day on which the relative recordings are played. */
const PLAYED_AT_MS = Date.UTC(2026, 6, 15, 18);
const HOUR_MS = 3_600_000;

/**
 * A recorded file. Tokens such as `date:now -26831 seconds / PT4H` become instants: seconds to the second, beginnings of
 * intervals to the whole hour (they can be a second off). `now` is chosen so that the document's span begins on the hour.
 */
export function recorded(name: string): { bytes: Uint8Array; nowMs: number } {
  const raw = readFileSync(join(FOLDER, name), 'utf8');
  const nowMs = playedNowMs(raw);
  const text = raw.replace(
    /date:now ([+-]\d+) seconds( \/ )?/g,
    (_, seconds: string, slash: string | undefined) => {
      const ms = nowMs + Number(seconds) * 1000;
      return slash ? `${rfc3339(Math.round(ms / HOUR_MS) * HOUR_MS)}/` : rfc3339(ms);
    },
  );
  return { bytes: new TextEncoder().encode(text), nowMs };
}

function playedNowMs(raw: string): number {
  const span = /"validTimes":\s*"date:now ([+-]\d+) seconds/.exec(raw);
  if (!span) return PLAYED_AT_MS;
  const overMs = (((Number(span[1]) * 1000) % HOUR_MS) + HOUR_MS) % HOUR_MS;
  return PLAYED_AT_MS + HOUR_MS - overMs;
}

const rfc3339 = (ms: number): string => new Date(ms).toISOString().replace('.000Z', '+00:00');

export const parsed = (bytes: Uint8Array): unknown => JSON.parse(new TextDecoder().decode(bytes));
