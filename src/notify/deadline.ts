// One deadline for the whole of a piece of work, by a clock that is given: whatever drips in does not move it.

import type { ChannelClock } from './channel.ts';

export interface Deadline {
  /** Aborted when the time is over, or when whoever asked gives up. */
  readonly signal: AbortSignal;
  /** Which of the two it was; null while it still runs. */
  why(): 'timeout' | 'called-off' | null;
  /** Must be called when the work is done. */
  done(): void;
}

export function deadline(clock: ChannelClock, ms: number, outer: AbortSignal): Deadline {
  const controller = new AbortController();
  let why: 'timeout' | 'called-off' | null = null;
  const end = (reason: 'timeout' | 'called-off') => {
    if (why !== null) return;
    why = reason;
    controller.abort(new Error(reason));
  };
  const callOff = () => end('called-off');
  const stopTimer = clock.after(ms, () => end('timeout'));
  if (outer.aborted) callOff();
  else outer.addEventListener('abort', callOff, { once: true });
  return {
    signal: controller.signal,
    why: () => why,
    done() {
      stopTimer();
      outer.removeEventListener('abort', callOff);
    },
  };
}
