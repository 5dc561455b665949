// Takes turns as a test says: each waits until it is let go, and is written down.

import type { TurnTaker } from '#jobs/take-turn.ts';
import { type Turn, workOf } from '#jobs/turn.ts';

export interface FakeTaker extends TurnTaker {
  /** Work in the order in which it was begun, `pull A 1,1 @60`. */
  readonly begun: readonly string[];
  /** Ends the oldest turn of a work that is under way. */
  end(work: string, outcome?: 'done' | 'taken' | Error): Promise<void>;
}

export const nameOf = (turn: Turn): string => `${workOf(turn)} @${turn.cycle}`;

export const turnOf = (kind: Turn['kind'], subject = '', cycle = 60): Turn => ({ kind, subject, cycle });

export function fakeTaker(): FakeTaker {
  const begun: string[] = [];
  const underWay: { work: string; gate: PromiseWithResolvers<'done' | 'taken'> }[] = [];
  return {
    begun,
    take(turn, signal) {
      begun.push(nameOf(turn));
      const gate = Promise.withResolvers<'done' | 'taken'>();
      underWay.push({ work: workOf(turn), gate });
      signal.addEventListener('abort', () => gate.reject(signal.reason));
      return gate.promise;
    },
    async end(work, outcome = 'done') {
      const at = underWay.findIndex((turn) => turn.work === work);
      const [found] = underWay.splice(at, at < 0 ? 0 : 1);
      if (!found) throw new Error(`"${work}" is not under way`);
      if (outcome instanceof Error) found.gate.reject(outcome);
      else found.gate.resolve(outcome);
      // What waited begins within the same round of the loop.
      await new Promise((resolve) => setImmediate(resolve));
    },
  };
}
