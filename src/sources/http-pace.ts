// How fast requests may follow on each other against one host, in the long run and at once: those of one process, or of
// many together.

import { messageOf } from '#errors.ts';
import type { SourceLog } from './source.ts';

export interface Pace {
  /** So many may go at once after a rest. */
  readonly burst: number;
  /** In the long run one request in so long [ms]. */
  readonly everyMs: number;
}

/** Waits until the host's next turn; rejects when called off. */
export type Pacer = (host: string, signal: AbortSignal) => Promise<void>;

/** Gives out the next turn among many processes: in how many ms it comes. */
export type NextTurn = (host: string, pace: Pace) => Promise<number>;

export interface PacerClock {
  readonly nowMs: () => number;
  readonly sleep: (ms: number, signal: AbortSignal) => Promise<void>;
}

/** Every turn is given out in order, each with its own moment: after a burst one per `everyMs`, whoever asks. */
export function makePacer({ burst, everyMs }: Pace, { nowMs, sleep }: PacerClock): Pacer {
  const waiting = new Map<string, number>();
  // When all turns given out so far would be used up at one per `everyMs`.
  const usedUpMs = new Map<string, number>();
  return async (host, signal) => {
    signal.throwIfAborted();
    const before = waiting.get(host) ?? 0;
    const now = nowMs();
    // A clock that was set back would leave everybody waiting for it to catch up.
    const farthestMs = now + (burst + before) * everyMs;
    const fromMs = Math.max(now, Math.min(usedUpMs.get(host) ?? now, farthestMs));
    usedUpMs.set(host, fromMs + everyMs);
    const waitMs = fromMs - (burst - 1) * everyMs - now;
    if (waitMs <= 0) return;
    waiting.set(host, before + 1);
    try {
      await sleep(waitMs, signal);
    } finally {
      waiting.set(host, (waiting.get(host) ?? 1) - 1);
    }
    signal.throwIfAborted();
  };
}

/** The same among many processes; where turns cannot be had this process keeps to the pace for itself. */
export function makeSharedPacer(
  pace: Pace,
  nextTurn: NextTurn,
  clock: PacerClock & { readonly log: SourceLog },
): Pacer {
  const alone = makePacer(pace, clock);
  return async (host, signal) => {
    signal.throwIfAborted();
    const waitMs = await nextTurn(host, pace).catch((fault: unknown) => {
      clock.log.warn({ host, fault: messageOf(fault) }, 'no turn from the others: the pace is kept alone');
      return null;
    });
    if (waitMs === null) return await alone(host, signal);
    if (waitMs > 0) await clock.sleep(waitMs, signal);
    signal.throwIfAborted();
  };
}
