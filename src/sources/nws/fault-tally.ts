// Counts of what was odd in a document, by kind and place. Nothing odd is passed over in silence.

import type { DataFault } from '#core/series/forecast.ts';

export interface FaultTally {
  /** Counts one; the first example of a kind and place is kept, cut to a readable length. */
  add(kind: string, where: string, example: unknown, count?: number): void;
  rows(): DataFault[];
}

const LONGEST_EXAMPLE = 120;

export function makeFaultTally(): FaultTally {
  const rows = new Map<string, { kind: string; where: string; count: number; example: string }>();
  return {
    add(kind, where, example, count = 1) {
      const key = `${kind} ${where}`;
      const row = rows.get(key);
      if (row) row.count += count;
      else rows.set(key, { kind, where, count, example: exampleText(example) });
    },
    rows: () => [...rows.values()],
  };
}

function exampleText(example: unknown): string {
  const text = typeof example === 'string' ? example : jsonText(example);
  return text.length > LONGEST_EXAMPLE ? `${text.slice(0, LONGEST_EXAMPLE)}…` : text;
}

/** What is nested too deeply to be written is named, never thrown. */
function jsonText(example: unknown): string {
  try {
    return JSON.stringify(example) ?? 'undefined';
  } catch {
    return 'what cannot be written';
  }
}
