// One run at a time of a piece of work, where whoever asks wants a run that begins after the asking.

/** Asked while a run is under way, the next run begins when it ends, and all who asked meanwhile share it. */
export function inTurn(run: () => Promise<void>): () => Promise<void> {
  let running: Promise<void> | null = null;
  let next: Promise<void> | null = null;
  const begin = (): Promise<void> => {
    running = run().finally(() => {
      running = null;
    });
    return running;
  };
  return () => {
    if (running === null) return begin();
    next ??= running
      // Its failure is told to those who asked for it.
      .catch(() => undefined)
      .then(() => {
        next = null;
        return begin();
      });
    return next;
  };
}

/** The same for work on some of many things: a run takes all that was asked for until it begins. */
export function inTurnOf<T>(
  run: (things: readonly T[]) => Promise<void>,
): (things: readonly T[]) => Promise<void> {
  const asked = new Set<T>();
  const runAll = inTurn(async () => {
    const things = [...asked];
    asked.clear();
    if (things.length > 0) await run(things);
  });
  return (things) => {
    for (const thing of things) asked.add(thing);
    return runAll();
  };
}

/** Runs work of any kind one after the other, in the order of the asking; a failure is told to who asked for it alone. */
export function oneAfterTheOther(): <T>(run: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (run) => {
    const mine = last.then(run);
    last = mine.catch(() => undefined);
    return mine;
  };
}
