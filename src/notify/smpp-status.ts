// What the status of an answer means (SMPP 3.4, section 5.1.3).

import type { Outcome } from './channel.ts';
import { outcome } from './outcome.ts';

export const SMPP_STATUS = {
  ok: 0x00,
  bindStatus: 0x04,
  alreadyBound: 0x05,
  systemError: 0x08,
  sourceAddress: 0x0a,
  destinationAddress: 0x0b,
  bindFailed: 0x0d,
  password: 0x0e,
  systemId: 0x0f,
  queueFull: 0x14,
  throttled: 0x58,
  /** Of the receiver, for now: whoever delivers should try again. */
  temporary: 0x64,
} as const;

/** What a text that was answered with `status` became. */
export function smppOutcome(status: number, messageId: string | null, optedOut: readonly number[]): Outcome {
  const detail = `status 0x${status.toString(16).padStart(2, '0')}`;
  if (status === SMPP_STATUS.ok) return outcome.sent(messageId);
  if (optedOut.includes(status)) return outcome.failed('opted-out', 'way', detail);
  switch (status) {
    case SMPP_STATUS.throttled:
    case SMPP_STATUS.queueFull:
      return outcome.retry('rate-limited', detail);
    case SMPP_STATUS.systemError:
    case SMPP_STATUS.temporary:
    case SMPP_STATUS.bindStatus:
      return outcome.retry('unavailable', detail);
    case SMPP_STATUS.destinationAddress:
      return outcome.failed('bad-address', 'way', detail);
    case SMPP_STATUS.sourceAddress:
      return outcome.failed('refused', 'channel', detail);
    default:
      return outcome.failed('refused', 'message', detail);
  }
}

/** True where the same credentials will be refused again. */
export const isBindRefused = (status: number): boolean =>
  status === SMPP_STATUS.bindFailed || status === SMPP_STATUS.password || status === SMPP_STATUS.systemId;

/**
 * Relative validity period (section 7.1.1): from years to seconds, at least a second, at most just under a month.
 */
export function validityPeriod(ms: number): string {
  const seconds = Math.min(Math.max(1, Math.floor(ms / 1000)), 28 * 86_400 - 1);
  const two = (n: number) => String(Math.floor(n)).padStart(2, '0');
  const days = seconds / 86_400;
  return `0000${two(days)}${two((seconds % 86_400) / 3600)}${two((seconds % 3600) / 60)}${two(seconds % 60)}000R`;
}
