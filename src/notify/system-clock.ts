// The clock of this machine. Its timers do not keep the process alive.

import type { ChannelClock } from './channel.ts';

/** Longer than this a timer of this runtime would fire at once. */
const LONGEST_MS = 2_147_483_647;

export const systemClock: ChannelClock = {
  nowMs: () => Date.now(),
  after(ms, run) {
    const timer = setTimeout(run, Math.min(Math.max(0, ms), LONGEST_MS));
    timer.unref();
    return () => clearTimeout(timer);
  },
};
