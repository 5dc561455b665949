// Simulated shifts for the pages: one is played at a time, and the newest are remembered.

import { ServiceError } from '#errors.ts';
import type { PlayedDay } from '#publish/page/played-day.ts';
import type { PlayDesk } from '#publish/play-desk.ts';

const MOST_REMEMBERED = 8;

export function createPlayDesk(playDay: (seed: number) => Promise<PlayedDay>): PlayDesk {
  const known = new Map<number, PlayedDay>();
  let underWay: { readonly seed: number; readonly day: Promise<PlayedDay> } | null = null;
  const remember = (seed: number, day: PlayedDay): void => {
    const oldest = known.keys().next();
    if (known.size >= MOST_REMEMBERED && !oldest.done) known.delete(oldest.value);
    known.set(seed, day);
  };
  const begin = async (seed: number): Promise<PlayedDay> => {
    try {
      const day = await playDay(seed);
      remember(seed, day);
      return day;
    } finally {
      underWay = null;
    }
  };
  return {
    played: (seed) => known.get(seed) ?? null,
    async play(seed) {
      const before = known.get(seed);
      if (before) return before;
      if (underWay?.seed === seed) return underWay.day;
      if (underWay !== null) {
        throw new ServiceError(
          'overloaded',
          'another simulated shift is being played; try again in some seconds',
          {
            retryable: true,
          },
        );
      }
      underWay = { seed, day: begin(seed) };
      return underWay.day;
    },
  };
}
