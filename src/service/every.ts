// Work that comes again and again while the process lives; it keeps no process alive.

/** Calls after each pause until stopped; the next pause begins when the call has ended. */
export function every(ms: number, call: () => unknown): () => void {
  let stopped = false;
  let timer: NodeJS.Timeout | null = null;
  const next = (): void => {
    timer = setTimeout(async () => {
      try {
        await call();
      } finally {
        if (!stopped) next();
      }
    }, ms).unref();
  };
  next();
  return () => {
    stopped = true;
    if (timer) clearTimeout(timer);
  };
}
