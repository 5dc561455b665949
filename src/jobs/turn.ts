// A turn: one piece of work that is due once, however many processes see that it is due.

export const TURN_KINDS = [
  'locate',
  'pull',
  'alerts',
  'plan',
  'watch',
  'observe',
  'heartbeat',
  'expire',
] as const;
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

/** What asks the source for forecasts may be many and slow; nothing else is to wait behind it. */
export const isUrgent = ({ kind }: Turn): boolean => kind !== 'locate' && kind !== 'pull';
