// Processes of the program, started as people start them, and killed at the end of a test however that ends.

import { type ChildProcess, spawn } from 'node:child_process';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../../src/main.mjs', import.meta.url));

export interface Started {
  readonly pid: number;
  /** What it has printed so far. */
  output(): string;
  /** The address that it says it serves at. */
  address(): Promise<string>;
  /** Sends a signal and waits for the end: its exit code, or the signal that ended it. */
  end(signal: 'SIGTERM' | 'SIGKILL'): Promise<number | string>;
}

const running = new Set<ChildProcess>();

export function start(words: readonly string[], env: Readonly<Record<string, string>>): Started {
  const child = spawn(process.execPath, [MAIN, ...words], {
    env: { ...process.env, LOG_LEVEL: 'fatal', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  running.add(child);
  let output = '';
  for (const stream of [child.stdout, child.stderr])
    stream.on('data', (data: Buffer) => {
      output += data.toString();
    });
  const ended = new Promise<number | string>((resolve) => {
    child.once('exit', (code, signal) => {
      running.delete(child);
      resolve(code ?? signal ?? 'unknown');
    });
  });
  return {
    pid: child.pid ?? 0,
    output: () => output,
    address: () =>
      until('an address', () => {
        if (child.exitCode !== null) throw new Error(`it ended with ${child.exitCode}:\n${output}`);
        return /http:\/\/[\d.]+:\d+/.exec(output)?.[0] ?? null;
      }),
    end(signal) {
      child.kill(signal);
      return ended;
    },
  };
}

export function endAll(): void {
  for (const child of running) child.kill('SIGKILL');
}

/** Processes go at their own pace: asked again and again until there is an answer. */
export async function until<T>(
  what: string,
  ask: () => Promise<T | null> | T | null,
  mostMs = 90_000,
): Promise<T> {
  const startMs = performance.now();
  for (;;) {
    const found = await ask();
    if (found !== null) return found;
    if (performance.now() - startMs > mostMs) throw new Error(`waited too long for ${what}`);
    await setTimeout(50);
  }
}
