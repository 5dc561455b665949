// How long to wait before connecting again: longer each time, never in step with others.

const SHORTEST_MS = 1_000;
const LONGEST_MS = 60_000;

/** `tries`: failures in a row, from 1 on; `random` gives 0 … 1. From half to one and a half of 1, 2, 4 … 60 s. */
export const backOffMs = (tries: number, random: () => number): number =>
  Math.round(Math.min(LONGEST_MS, SHORTEST_MS * 2 ** Math.min(tries - 1, 16)) * (0.5 + random()));
