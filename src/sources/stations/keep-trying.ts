// Connections that are made again whenever they end, with more patience each time until one was of use.

import { backOffMs } from './back-off.ts';
import type { SourceContext } from './observation-source.ts';

export interface Ended {
  /** In words, without secrets. */
  readonly why: string;
  /** True where it was of use: the next failure is the first of a row. */
  readonly wasUp: boolean;
}

/** Begins at once. `once` must not reject; `down` is told for every end but the one by `close`. */
export function keepTrying(
  once: (signal: AbortSignal) => Promise<Ended>,
  down: (why: string) => void,
  { sleep, random }: Pick<SourceContext, 'sleep' | 'random'>,
): { close(): Promise<void> } {
  const closing = new AbortController();
  const ended = run();

  async function run(): Promise<void> {
    for (let tries = 1; ; tries += 1) {
      const { why, wasUp } = await once(closing.signal);
      if (closing.signal.aborted) return;
      down(why);
      if (wasUp) tries = 1;
      try {
        await sleep(backOffMs(tries, random), closing.signal);
      } catch {
        return;
      }
    }
  }

  return {
    async close() {
      closing.abort();
      await ended;
    },
  };
}
