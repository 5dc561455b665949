// A fault as a log tells it: only what is listed here. Whatever else a library hangs on its faults (the request, the
// address, bytes as they came) is where secrets travel.

import { withoutSecrets } from '#publish/access/without-secrets.ts';

export interface ToldFault {
  readonly name: string;
  readonly code?: string;
  readonly message: string;
  /** Where it happened, innermost first. */
  readonly at?: readonly string[];
  readonly cause?: ToldFault;
  /** Of an AggregateError. */
  readonly faults?: readonly ToldFault[];
}

const MOST_CAUSES = 5;
const MOST_FRAMES = 20;
const MOST_CHARACTERS = 1000;

export function toldFault(fault: unknown, depth = 0): ToldFault {
  if (!(fault instanceof Error)) return { name: typeof fault, message: told(plainText(fault)) };
  const { name, message, stack = '', cause } = fault;
  const { code } = fault as { readonly code?: unknown };
  const at = framesOf(stack);
  const inner = fault instanceof AggregateError ? fault.errors.slice(0, MOST_CAUSES) : [];
  const deeper = depth < MOST_CAUSES;
  return {
    name: told(String(name)),
    ...(typeof code === 'string' || typeof code === 'number' ? { code: told(String(code)) } : {}),
    message: told(String(message)),
    ...(at.length > 0 ? { at } : {}),
    ...(cause !== undefined && deeper ? { cause: toldFault(cause, depth + 1) } : {}),
    ...(inner.length > 0 && deeper ? { faults: inner.map((each) => toldFault(each, depth + 1)) } : {}),
  };
}

const told = (text: string): string => withoutSecrets(text.slice(0, MOST_CHARACTERS));

/** A thrown object could hold anything. */
const plainText = (fault: unknown): string =>
  typeof fault === 'object' && fault !== null ? 'thrown without being a fault' : String(fault);

const framesOf = (stack: string): string[] =>
  stack
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line.startsWith('at '))
    .slice(0, MOST_FRAMES)
    .map(told);
