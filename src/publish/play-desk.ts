// What the pages ask of the simulated shift; only the demonstration has it.

import type { PlayedDay } from '#publish/page/played-day.ts';

export interface PlayDesk {
  /** A shift that was played before; null where it was not, or was forgotten. */
  played(seed: number): PlayedDay | null;
  /** Throws ServiceError `overloaded` while another one is played. */
  play(seed: number): Promise<PlayedDay>;
}

/** Seeds are whole numbers from 1 to this. */
export const MOST_SEED = 9999;
