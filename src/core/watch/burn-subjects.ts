// What tells the notices of several open burns at one site apart.

import type { Burn } from './burn.ts';
import type { Condition } from './condition.ts';

/**
 * The subject of the conditions of each open burn, by its id: empty for the first, the id for one that was opened beside it.
 * Whichever a burn has it keeps to its end, so that a cover of the one is no news of the other.
 */
export function burnSubjects(
  open: readonly Burn[],
  before: readonly Condition[],
): ReadonlyMap<string, string> {
  const isNamed = ({ id }: Burn) => before.some((c) => c.code === 'cover-due' && c.subject === id);
  const [first] = open.filter((burn) => !isNamed(burn)).sort((a, b) => a.openedAtMs - b.openedAtMs);
  return new Map(open.map(({ id }) => [id, id === first?.id ? '' : id]));
}
