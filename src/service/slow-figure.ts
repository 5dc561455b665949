// A figure that takes long to find and changes slowly: told as it was last found, and found anew behind whoever asks.

export interface SlowFigureOptions {
  find(): Promise<number>;
  readonly everyMs: number;
  /** A clock that nobody sets. */
  readonly steadyMs: () => number;
}

/** Null until it was found, and after it could not be. */
export function createSlowFigure({ find, everyMs, steadyMs }: SlowFigureOptions): () => number | null {
  let figure: number | null = null;
  let triedMs = Number.NEGATIVE_INFINITY;
  return () => {
    if (steadyMs() - triedMs >= everyMs) {
      triedMs = steadyMs();
      void find().then(
        (found) => {
          figure = found;
        },
        () => {
          figure = null;
        },
      );
    }
    return figure;
  };
}
