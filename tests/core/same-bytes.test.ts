// The same input gives the same bytes: twice in one process, and in processes of other time zones.

import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { planLines } from '../builders/plan-bytes.ts';

const PROGRAM = fileURLToPath(new URL('../builders/plan-bytes.ts', import.meta.url));
const ROOT = fileURLToPath(new URL('../..', import.meta.url));

function inZone(zone: string): { localMidnight: string; plans: string[] } {
  const options = { env: { TZ: zone }, cwd: ROOT, encoding: 'utf8', maxBuffer: 200e6 } as const;
  const [localMidnight = '', ...plans] = execFileSync(process.execPath, [PROGRAM], options).split('\n');
  return { localMidnight, plans };
}

describe('a plan', () => {
  it('of the same input is the same bytes, made twice', () => {
    expect(planLines(60, 99)).toEqual(planLines(60, 99));
  });

  it('does not know the time zone of the process', () => {
    const here = planLines(25, 4711);
    const runs = ['UTC', 'Pacific/Kiritimati', 'America/Adak', 'Asia/Kathmandu'].map(inZone);
    // The zones took effect: each process has its own midnight.
    expect(new Set(runs.map((r) => r.localMidnight)).size).toBe(4);
    for (const run of runs) expect(run.plans).toEqual(here);
  }, 30_000);
});
