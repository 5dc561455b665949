// How long to wait before the next try: doubling from the least to the most, between half and all of it, so that those who
// were cut off together do not come back together.

/** `attempt` counts from 0; `random` is in [0, 1). */
export const backoffMs = (attempt: number, leastMs: number, mostMs: number, random: number): number =>
  Math.round(Math.min(mostMs, leastMs * 2 ** Math.min(attempt, 30)) * (0.5 + random / 2));
