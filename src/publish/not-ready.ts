// Why the service cannot answer now, as /readyz tells it to everybody: nothing of the inside is in it.

/** Stable, for programs. `store-other`: the log says more. */
export const NOT_READY_CODES = [
  'ending',
  'store-unread',
  'store-disk-full',
  'store-read-only',
  'store-locked',
  'store-connection-lost',
  'store-too-slow',
  'store-damaged',
  'store-closed',
  'store-other',
  'no-sound-site',
  'no-fresh-forecast',
] as const;

export interface NotReady {
  readonly code: (typeof NOT_READY_CODES)[number];
  readonly sentence: string;
}
