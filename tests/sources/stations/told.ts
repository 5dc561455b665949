// What a source tells, in order, each to be waited for.

import type { ListeningState, ObservationReading } from '#sources/stations/observation-source.ts';

export interface Told<T> {
  readonly all: T[];
  push(item: T): void;
  /** The first item, told or still to come, that fits; items are looked at once. */
  next(fits?: (item: T) => boolean): Promise<T>;
}

export function makeTold<T>(): Told<T> {
  const all: T[] = [];
  let seen = 0;
  let waiting: (() => void)[] = [];
  return {
    all,
    push(item) {
      all.push(item);
      for (const wake of waiting.splice(0)) wake();
    },
    async next(fits = () => true) {
      for (;;) {
        while (seen < all.length) {
          const item = all[seen] as T;
          seen += 1;
          if (fits(item)) return item;
        }
        await new Promise<void>((resolve) => {
          waiting = [...waiting, resolve];
        });
      }
    },
  };
}

/** Readings and states of something that is listened to. */
export const makeEars = () => {
  const readings = makeTold<ObservationReading>();
  const states = makeTold<ListeningState>();
  return {
    readings,
    states,
    up: () => states.next(({ up }) => up),
    down: () => states.next(({ up }) => !up),
  };
};
