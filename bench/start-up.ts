// (d) From the start of the process to ready, and its memory then.

import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { line, median } from './measure.ts';

const MAIN = fileURLToPath(new URL('../src/main.ts', import.meta.url));
const RUNS = 5;

export async function benchStartUp(): Promise<void> {
  const runs: { readyMs: number; rssMb: number }[] = [];
  for (let i = 0; i < RUNS; i += 1) runs.push(await startOnce());
  const bare = await bareNodeMs();
  line(
    `(d) demo service from process start to /readyz, median of ${RUNS}: ${median(runs.map((r) => r.readyMs)).toFixed(0)} ms (goal: under 1,000; bare node here: ${bare.toFixed(0)} ms), RSS ${median(runs.map((r) => r.rssMb)).toFixed(0)} MB`,
  );
}

async function startOnce(): Promise<{ readyMs: number; rssMb: number }> {
  const start = performance.now();
  const child = spawn(process.execPath, [MAIN, 'serve', '--demo', '--port', '0'], {
    stdio: ['ignore', 'pipe', 'ignore'],
    env: { ...process.env, LOG_LEVEL: 'silent' },
  });
  const url = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (data) => {
      const found = /http:\/\/127\.0\.0\.1:\d+/.exec(String(data))?.[0];
      if (found) resolve(found);
    });
    child.once('exit', (code) => reject(new Error(`the service ended with ${code}`)));
  });
  for (;;) {
    if ((await fetch(`${url}/readyz`)).ok) break;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
  const readyMs = performance.now() - start;
  const rssMb = rssOf(child.pid);
  const ended = new Promise((resolve) => child.once('exit', resolve));
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

async function bareNodeMs(): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < RUNS; i += 1) {
    const start = performance.now();
    const child = spawn(process.execPath, ['-e', '0'], { stdio: 'ignore' });
    await new Promise((resolve) => child.once('exit', resolve));
    times.push(performance.now() - start);
  }
  return median(times);
}
