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
