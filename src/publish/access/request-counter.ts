// So many requests within a minute by one name. Plain numbers: it is asked before every answer.

import { MINUTE_MS } from '#core/units/time.ts';

export interface RequestCounter {
  /** Counts one more; gives the ms until there is room again, 0 where it fits. */
  take(name: string, most: number): number;
}

/**
 * One window for all names, begun by the first request after the one before. `nowMs`: of a clock that nobody sets.
 * `mostNames` are held; the longest known are forgotten.
 */
export function createRequestCounter(nowMs: () => number, mostNames = 10_000): RequestCounter {
  const taken = new Map<string, number>();
  let untilMs = Number.NEGATIVE_INFINITY;
  return {
    take(name, most) {
      const at = nowMs();
      if (at >= untilMs) {
        taken.clear();
        untilMs = at + MINUTE_MS;
      }
      const count = (taken.get(name) ?? 0) + 1;
      taken.set(name, count);
      if (taken.size > mostNames) taken.delete(firstOf(taken));
      return count <= most ? 0 : untilMs - at;
    },
  };
}

const firstOf = (names: ReadonlyMap<string, number>): string => names.keys().next().value ?? '';
