// A process beside, which answers one message for each that it is sent.

import { type ChildProcess, fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export interface Child<T> {
  /** What it said once it was ready. */
  readonly hello: T;
  ask<A>(message: unknown): Promise<A>;
  /** Most memory that it has held so far [MB]; NaN where the system does not tell. */
  peakMb(): number;
  kill(signal?: 'SIGTERM' | 'SIGKILL'): Promise<void>;
}

/** `file` stands in this folder. */
export async function startChild<T>(
  file: string,
  args: readonly string[] = [],
  execArgv: readonly string[] = [],
): Promise<Child<T>> {
  const path = fileURLToPath(new URL(`./${file}`, import.meta.url));
  const child = fork(path, [...args], { execArgv: [...execArgv] });
  const next = <A>(): Promise<A> =>
    new Promise((resolve, reject) => {
      const ended = (code: number | null): void => reject(new Error(`${file} ended with ${code}`));
      child.once('exit', ended);
      child.once('message', (message) => {
        child.off('exit', ended);
        resolve(message as A);
      });
    });
  return {
    hello: await next<T>(),
    ask(message) {
      child.send(message as object);
      return next();
    },
    peakMb: () => peakMbOf(child.pid),
    kill: (signal = 'SIGTERM') => end(child, signal),
  };
}

function peakMbOf(pid: number | undefined): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
  } catch {
    return Number.NaN;
  }
}

async function end(child: ChildProcess, signal: 'SIGTERM' | 'SIGKILL'): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  const ended = new Promise((resolve) => child.once('exit', resolve));
  child.kill(signal);
  await ended;
}
