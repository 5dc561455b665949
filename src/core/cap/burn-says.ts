// The burn as its taps have it → what a message says of it: a smoke that somebody sees there is this one.

import { HOUR_MS } from '#core/units/time.ts';
import type { Burn } from '#core/watch/burn.ts';
import type { Category } from './cap-alert.ts';
import { allClear, withdrawn } from './notice-says.ts';
import type { CapSays } from './step-chain.ts';

const CATEGORIES: readonly Category[] = ['Fire', 'Env'];

/** Told again before it runs out, as long as the pit is open. */
const STANDS_FOR_MS = 6 * HOUR_MS;

/** `burn`: by the taps that had come by then; null where none of them counts: it never burned. */
export function burnSays(burn: Burn | null, atMs: number): CapSays {
  if (burn === null) return { kind: 'withdrawn', terms: withdrawn(CATEGORIES) };
  if (burn.closedAtMs !== null) return { kind: 'over', terms: allClear(CATEGORIES) };
  return {
    kind: 'stands',
    terms: {
      categories: CATEGORIES,
      urgency: 'Immediate',
      severity: 'Minor',
      certainty: 'Observed',
      responseType: 'Monitor',
    },
    untilMs: atMs + STANDS_FOR_MS,
  };
}
