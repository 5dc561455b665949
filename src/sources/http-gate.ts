// How many requests run at once against one host, and for how long a host that refused us is left alone.

import { refusalPauseMs } from './http-retry.ts';

export interface HostGate {
  /** Runs a task when one of the host's places is free. */
  run<T>(host: string, signal: AbortSignal, task: () => Promise<T>): Promise<T>;
  /** Until when the host is left alone [epoch ms]; in the past where it is not. */
  pausedUntilMs(host: string): number;
  /** Notes a refusal; returns how long the host is left alone [ms]. */
  refused(host: string, nowMs: number, retryAfterMs: number | null): number;
  /** Notes an answer: the host takes us again. */
  answered(host: string): void;
}

export function makeHostGate(atOnce: number): HostGate {
  const running = new Map<string, number>();
  const waiting = new Map<string, (() => void)[]>();
  const refusals = new Map<string, { count: number; untilMs: number }>();

  const enter = (host: string, signal: AbortSignal): Promise<void> => {
    signal.throwIfAborted();
    const count = running.get(host) ?? 0;
    if (count < atOnce) {
      running.set(host, count + 1);
      return Promise.resolve();
    }
    return new Promise((resolve, reject) => {
      const queue = waiting.get(host) ?? [];
      waiting.set(host, queue);
      const go = () => {
        signal.removeEventListener('abort', leave);
        resolve();
      };
      const leave = () => {
        queue.splice(queue.indexOf(go), 1);
        reject(signal.reason);
      };
      signal.addEventListener('abort', leave, { once: true });
      queue.push(go);
    });
  };

  const exit = (host: string): void => {
    const next = waiting.get(host)?.shift();
    if (next) next();
    else running.set(host, (running.get(host) ?? 1) - 1);
  };

  return {
    async run(host, signal, task) {
      await enter(host, signal);
      try {
        return await task();
      } finally {
        exit(host);
      }
    },
    pausedUntilMs: (host) => refusals.get(host)?.untilMs ?? Number.NEGATIVE_INFINITY,
    refused(host, nowMs, retryAfterMs) {
      const known = refusals.get(host);
      // Answers to requests that ran at the same time are one refusal, not several.
      const count = known && nowMs < known.untilMs ? known.count : (known?.count ?? 0) + 1;
      const pauseMs = refusalPauseMs(count, retryAfterMs);
      refusals.set(host, { count, untilMs: Math.max(known?.untilMs ?? 0, nowMs + pauseMs) });
      return pauseMs;
    },
    answered: (host) => {
      refusals.delete(host);
    },
  };
}
