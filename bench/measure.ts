// Side-by-side timing: the candidates take turns within one run, so that a noisy machine disturbs them alike.

export interface Timed {
  readonly name: string;
  /** Median of the rounds [µs per call]. */
  readonly medianUs: number;
  /** Time against the first candidate's in the same round: median of the rounds. */
  readonly ratio: number;
}

/**
 * Runs each candidate until the engine has settled (a service runs for months), then `calls` times per round, in
 * turns, and gives the medians.
 */
export function sideBySide(
  candidates: readonly { name: string; run: () => unknown }[],
  { rounds = 75, calls = 20, warmUp = 4000 } = {},
): Timed[] {
  for (const { run } of candidates) for (let i = 0; i < warmUp; i += 1) run();
  const times = candidates.map((): number[] => []);
  for (let round = 0; round < rounds; round += 1) {
    for (const [i, { run }] of candidates.entries()) {
      const start = performance.now();
      for (let call = 0; call < calls; call += 1) run();
      times[i]?.push(((performance.now() - start) / calls) * 1000);
    }
  }
  const first = times[0] ?? [];
  return candidates.map(({ name }, i) => {
    const own = times[i] ?? [];
    return { name, medianUs: median(own), ratio: median(own.map((us, round) => us / (first[round] ?? us))) };
  });
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

export const line = (text: string): void => {
  process.stdout.write(`${text}\n`);
};

/** How far long work has come. */
export const note = (text: string): void => {
  process.stderr.write(`    … ${text}\n`);
};
