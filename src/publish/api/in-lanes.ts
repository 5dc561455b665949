// Long work for one answer, done so that others are answered meanwhile: a few things at a time, with room between them.

/** How long others wait for it at the most, but for a single step that takes longer [ms]. */
const SLICE_MS = 20;

/** Gives way to whatever else there is to do, where it has not for a while. */
export function breather(): () => Promise<void> {
  let sinceMs = performance.now();
  return async () => {
    if (performance.now() - sinceMs < SLICE_MS) return;
    await new Promise<void>((resolve) => {
      setImmediate(resolve);
    });
    sinceMs = performance.now();
  };
}

const LANES = 8;

/** What `work` makes of each, in their order. The first fault ends it. */
export async function inLanes<T, R>(
  all: readonly T[],
  work: (one: T, index: number) => Promise<R>,
): Promise<R[]> {
  const made: R[] = [];
  const breathe = breather();
  const indexes = all.keys();
  const lane = async (): Promise<void> => {
    for (const index of indexes) {
      made[index] = await work(all[index] as T, index);
      await breathe();
    }
  };
  await Promise.all(Array.from({ length: Math.min(LANES, all.length) }, lane));
  return made;
}
