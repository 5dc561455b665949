// What a fault of sending mail means. Replies: RFC 5321, section 4.2: 4xx for now, 5xx for good.

import type { Outcome } from './channel.ts';
import { outcome } from './outcome.ts';

/** Of `fault` only its codes are told: its message may repeat what was sent. */
export function mailFault(
  fault: unknown,
  isAllWritten: boolean,
  ended: 'timeout' | 'called-off' | null,
): Outcome {
  const code = textOf(fault, 'code') ?? 'no code';
  const command = textOf(fault, 'command') ?? '';
  const reply = numberOf(fault, 'responseCode');
  if (reply !== null) return byReply(reply, code, command);
  // All of it was written, and no word came: it may be on its way.
  if (isAllWritten)
    return outcome.uncertain(ended === 'timeout' ? 'timeout' : 'unreachable', 'no reply to the message');
  if (ended !== null) return outcome.retry(ended, ended === 'timeout' ? 'not taken in time' : 'called off');
  if (code === 'EAUTH')
    return outcome.failed('auth', 'channel', 'the server takes no password in a way that we know');
  if (CONNECTION.has(code)) return outcome.retry('unreachable', `the connection failed (${code})`);
  return outcome.failed('render', 'message', `the message cannot be written (${code})`);
}

const CONNECTION = new Set([
  'ECONNECTION',
  'ESOCKET',
  'EDNS',
  'ETIMEDOUT',
  'ETLS',
  'EPROTOCOL',
  'ECONNREFUSED',
]);

function byReply(reply: number, code: string, command: string): Outcome {
  const detail = `reply ${reply} to ${command === '' ? 'the connection' : command}`;
  if (reply < 500) return outcome.retry('unavailable', detail);
  if (code === 'EAUTH' || reply === 530 || reply === 535) return outcome.failed('auth', 'channel', detail);
  if (command === 'RCPT TO') return outcome.failed('refused', 'way', detail);
  return outcome.failed('refused', command === 'DATA' ? 'message' : 'channel', detail);
}

const textOf = (fault: unknown, key: string): string | null => {
  const value = fieldOf(fault, key);
  return typeof value === 'string' ? value : null;
};

const numberOf = (fault: unknown, key: string): number | null => {
  const value = fieldOf(fault, key);
  return typeof value === 'number' ? value : null;
};

const fieldOf = (fault: unknown, key: string): unknown =>
  typeof fault === 'object' && fault !== null ? (fault as Readonly<Record<string, unknown>>)[key] : undefined;
