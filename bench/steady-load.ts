// Asks at a steady rate whether answers come or not, so that a server which stalls is seen to stall.

import { setTimeout } from 'node:timers/promises';
import { Agent, request } from 'undici';

export interface Load {
  readonly count: number;
  readonly p50Ms: number;
  readonly p99Ms: number;
  readonly longestMs: number;
  /** Answers that were not 200, by status or kind of fault. */
  readonly refused: Readonly<Record<string, number>>;
}

/** Each request is timed from the moment at which it was due. */
export async function steadyLoad(
  perSecond: number,
  addressOf: (index: number) => string,
  ended: Promise<unknown>,
): Promise<Load> {
  const agent = new Agent({ connections: 64 });
  const times: number[] = [];
  const refused: Record<string, number> = {};
  let isOver = false;
  ended.then(
    () => (isOver = true),
    () => (isOver = true),
  );
  const ask = async (index: number, dueMs: number): Promise<void> => {
    const outcome = await request(addressOf(index), { dispatcher: agent }).then(
      async ({ statusCode, body }) => {
        await body.dump();
        return String(statusCode);
      },
      (fault: Error) => fault.name,
    );
    times.push(performance.now() - dueMs);
    if (outcome !== '200') refused[outcome] = (refused[outcome] ?? 0) + 1;
  };
  const startMs = performance.now();
  const running: Promise<void>[] = [];
  for (let index = 0; !isOver; index += 1) {
    const dueMs = startMs + (index * 1000) / perSecond;
    const waitMs = dueMs - performance.now();
    if (waitMs > 0) await setTimeout(waitMs);
    if (!isOver) running.push(ask(index, dueMs));
  }
  await Promise.all(running);
  await agent.close();
  times.sort((a, b) => a - b);
  const at = (share: number): number => times[Math.floor((times.length - 1) * share)] ?? Number.NaN;
  return { count: times.length, p50Ms: at(0.5), p99Ms: at(0.99), longestMs: at(1), refused };
}
