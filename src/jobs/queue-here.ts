// The queue of a single process: turns wait in memory. Nothing is lost with it, since what is due is worked out anew every
// minute.

import { messageOf } from '#errors.ts';
import type { SourceLog } from '#sources/source.ts';
import type { TurnQueue } from './queue.ts';
import type { TurnTaker } from './take-turn.ts';
import { isUrgent, type Turn, workOf } from './turn.ts';

/** Of pulls, which have a deadline: begun all at once, most would spend theirs waiting for the source's pace. */
const AT_ONCE = 4;

export function createQueueHere(taker: TurnTaker, log: SourceLog): TurnQueue {
  const stopping = new AbortController();
  const waiting = new Map<string, Turn>();
  const running = new Map<string, Promise<void>>();
  let patient = 0;
  let whenIdle: PromiseWithResolvers<void> | null = null;

  const run = async (turn: Turn): Promise<void> => {
    try {
      await taker.take(turn, stopping.signal);
    } catch (fault) {
      if (!stopping.signal.aborted) log.warn({ ...turn, fault: messageOf(fault) }, 'turn left undone');
    }
  };
  const begin = (): void => {
    for (const [work, turn] of waiting) {
      if (stopping.signal.aborted) break;
      if (!isUrgent(turn) && patient >= AT_ONCE) continue;
      waiting.delete(work);
      patient += isUrgent(turn) ? 0 : 1;
      const done = run(turn).finally(() => {
        running.delete(work);
        patient -= isUrgent(turn) ? 0 : 1;
        begin();
      });
      running.set(work, done);
    }
    if (running.size > 0 || (waiting.size > 0 && !stopping.signal.aborted)) return;
    whenIdle?.resolve();
    whenIdle = null;
  };
  const idle = (): Promise<void> => {
    if (running.size === 0 && waiting.size === 0) return Promise.resolve();
    whenIdle ??= Promise.withResolvers<void>();
    return whenIdle.promise;
  };
  return {
    send(turns) {
      if (stopping.signal.aborted) return Promise.resolve();
      for (const turn of turns) {
        const work = workOf(turn);
        // The turn under way is this one, or the one before it: which is then late, and the next minute asks again.
        if (!running.has(work)) waiting.set(work, turn);
      }
      begin();
      return Promise.resolve();
    },
    idle,
    waiting: () => waiting.size,
    running: () => running.size,
    async stop() {
      stopping.abort();
      waiting.clear();
      await Promise.all(running.values());
    },
  };
}
