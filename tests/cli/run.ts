// Runs the command line in process, with its output caught and its clock set.

import { runCommandLine } from '#cli/cli.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export async function run(
  args: readonly string[],
  {
    now = '2026-03-03T01:10:00Z',
    environment = {},
  }: { now?: string; environment?: Record<string, string> } = {},
): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCommandLine(args, {
    out: (text) => out.push(text),
    err: (text) => err.push(text),
    environment,
    colour: false,
    nowMs: () => Date.parse(now),
    sleep: () => Promise.resolve(),
  });
  return { code, out: out.join('\n'), err: err.join('\n') };
}
