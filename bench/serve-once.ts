// A serving process from its start to ready, as an operator starts it.

import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../src/main.mjs', import.meta.url));

export interface Served {
  /** From the start of the process to the first 200 of /readyz. */
  readonly readyMs: number;
  readonly rssMb: number;
}

export async function serveOnce(
  words: readonly string[],
  environment: Readonly<Record<string, string>> = {},
): Promise<Served> {
  const start = performance.now();
  const child = spawn(process.execPath, [MAIN, 'serve', ...words, '--port', '0'], {
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...process.env, LOG_LEVEL: 'silent', ...environment },
  });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  const url = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (data) => {
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(String(data))?.[0];
      if (found) resolve(found);
    });
    void ended.then((code) => reject(new Error(`the service ended with ${code}`)));
  });
  while (!(await fetch(`${url}/readyz`)).ok) await setTimeout(5);
  const readyMs = performance.now() - start;
  const rssMb = rssOf(child.pid);
  child.kill('SIGTERM');
  await ended;
  return { readyMs, rssMb };
}

function rssOf(pid: number | undefined): number {
  try {
    return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
  } catch {
    return Number.NaN;
  }
}
