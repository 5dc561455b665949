// A turn: one piece of work that is due once, however many processes see that it is due.

import { createHash } from 'node:crypto';

export const TURN_KINDS = ['locate', 'pull', 'alerts', 'plan', 'heartbeat', 'expire'] as const;
export type TurnKind = (typeof TURN_KINDS)[number];

export interface Turn {
  readonly kind: TurnKind;
  /** A place (`locate`), a cell (`pull`), `unread` (`alerts` of places that have none yet), or nothing. */
  readonly subject: string;
  /** When the turn began to be due, in seconds since 1970: the same in every process. */
  readonly cycle: number;
}

/** What is claimed: `pull BMX 59,84`. */
export const workOf = ({ kind, subject }: Turn): string => (subject === '' ? kind : `${kind} ${subject}`);

/** The same turn has the same id everywhere (RFC 9562, version 8: of a digest of our own). */
export function turnId(turn: Turn): string {
  const hex = createHash('sha256')
    .update(`${workOf(turn)} ${turn.cycle}`)
    .digest('hex');
  const variant = ((Number.parseInt(hex.charAt(16), 16) & 0x3) | 0x8).toString(16);
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `8${hex.slice(13, 16)}`,
    `${variant}${hex.slice(17, 20)}`,
    hex.slice(20, 32),
  ].join('-');
}
