// What happened, for programs that must miss nothing: one log of each organisation, in the order of the commits.

import type { Tap } from '#core/watch/burn.ts';

/** A published contract: never rename one, never change what it means. */
export type EventKind =
  | 'verdict-changed'
  | 'window-changed'
  | 'reason-changed'
  | 'forecast-stale'
  | 'forecast-fresh'
  | `burn-${Tap}`
  | 'burn-corrected'
  | 'burn-incident'
  | 'notice-raised'
  | 'notice-updated'
  | 'notice-ended'
  | 'order-added'
  | 'order-changed'
  | 'order-lifted'
  | 'subscription-ended';

export const EVENT_KINDS: readonly EventKind[] = [
  'verdict-changed',
  'window-changed',
  'reason-changed',
  'forecast-stale',
  'forecast-fresh',
  'burn-lit',
  'burn-charging',
  'burn-burning-down',
  'burn-covered',
  'burn-put-out-early',
  'burn-corrected',
  'burn-incident',
  'notice-raised',
  'notice-updated',
  'notice-ended',
  'order-added',
  'order-changed',
  'order-lifted',
  'subscription-ended',
];

/** Plain data: it goes through JSON and comes back the same. */
export interface NewEvent {
  readonly organisation: string;
  /** `organisation/id`; null: of the whole organisation. */
  readonly site: string | null;
  readonly kind: EventKind;
  /** What it is about: a plan, a burn, a notice, an order. */
  readonly subject: string;
  /** When it came about [epoch ms]. Of a tap: when it was received. */
  readonly atMs: number;
  /** Nobody is to go by it after this [epoch ms]; null: it is a fact and stays one. */
  readonly validUntilMs: number | null;
  readonly data: unknown;
}

export interface LoggedEvent extends NewEvent {
  /** Rises from event to event in the order of their commits: a reader that remembers it misses nothing. */
  readonly position: number;
}

/** `organisation/id` → the organisation. */
export const organisationOf = (site: string): string => site.slice(0, site.indexOf('/'));
