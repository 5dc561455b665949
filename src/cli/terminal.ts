// What commands know of the world: where to write, the environment, the clock; and what exit codes mean.

import { setTimeout } from 'node:timers/promises';
import type { SourceLog } from '#sources/source.ts';
import type { Arguments } from './arguments.ts';

/** Where a command writes, and what it may know of the world. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** True where standard output is a terminal that shows colour. */
  readonly colour: boolean;
  nowMs(): number;
  sleep(ms: number, signal: AbortSignal): Promise<void>;
}

/** Runs to its end and tells its exit code. */
export type Command = (args: Arguments, terminal: Terminal) => Promise<number>;

/** 0 done, 1 failed, 2 wrong usage, 3 source unreachable; 10 to 12 are the answers of `check`. */
export const EXIT = {
  done: 0,
  failed: 1,
  usage: 2,
  unreachable: 3,
  hold: 10,
  stop: 11,
  cannotSay: 12,
} as const;

export function processTerminal(): Terminal {
  const { env, stdout, stderr } = process;
  return {
    out: (text) => stdout.write(`${text}\n`),
    err: (text) => stderr.write(`${text}\n`),
    environment: env,
    colour: stdout.isTTY === true && !env['NO_COLOR'] && env['TERM'] !== 'dumb',
    nowMs: () => Date.now(),
    sleep: (ms, signal) => setTimeout(ms, undefined, { signal }),
  };
}

/** A source's warnings, told while people wait. */
export const logTo = (terminal: Terminal): SourceLog => ({
  info: () => undefined,
  warn: (_facts, message) => terminal.err(message),
});
