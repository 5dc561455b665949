// (d) From the start of the process to ready, and its memory then.

import { spawn } from 'node:child_process';
import { line, median } from './measure.ts';
import { type Served, serveOnce } from './serve-once.ts';

const RUNS = 5;

export async function benchStartUp(): Promise<void> {
  const runs: Served[] = [];
  for (let i = 0; i < RUNS; i += 1) runs.push(await serveOnce(['--demo']));
  const bare = await bareNodeMs();
  line(
    `(d) demo service from process start to /readyz, median of ${RUNS}: ${median(runs.map((r) => r.readyMs)).toFixed(0)} ms (goal: under 1,000; bare node here: ${bare.toFixed(0)} ms), RSS ${median(runs.map((r) => r.rssMb)).toFixed(0)} MB`,
  );
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
