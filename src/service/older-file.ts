// Whether a configuration file is one that another has replaced since: left on a machine, or brought back from a copy, it
// would quietly loosen what was made stricter.

import { isDeepStrictEqual } from 'node:util';
import type { Definition } from '#store/definition.ts';
import type { WrittenDefinition } from './written-definitions.ts';

export interface Replaced {
  /** When the file that came next was imported [epoch ms]. */
  readonly atMs: number;
  readonly by: string;
}

/**
 * `revisions`: all that files have ever written, in any order. Null where the file is new, or the one in force. Imports of
 * the same millisecond count as one.
 */
export function replacedSince(
  revisions: readonly Definition[],
  written: readonly WrittenDefinition[],
): Replaced | null {
  const imports = [...Map.groupBy(revisions, (row) => row.changedAtMs)].sort(([a], [b]) => a - b);
  const file = new Map(written.map(({ kind, id, body }) => [`${kind} ${id}`, body]));
  const state = new Map<string, unknown>();
  let replaced: Replaced | null = null;
  let was = false;
  for (const [atMs, rows] of imports) {
    if (was) replaced = { atMs, by: rows[0]?.changedBy ?? '' };
    for (const { kind, id, body } of rows.toSorted((a, b) => a.revision - b.revision)) {
      if (body === null) state.delete(`${kind} ${id}`);
      else state.set(`${kind} ${id}`, body);
    }
    was = isSame(state, file);
  }
  return was ? null : replaced;
}

const isSame = (a: ReadonlyMap<string, unknown>, b: ReadonlyMap<string, unknown>): boolean =>
  a.size === b.size && [...a].every(([name, body]) => isDeepStrictEqual(b.get(name), body));
