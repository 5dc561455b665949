// Which of several pits of one site something is about: the one that was lit at such a time. Nothing is typed at a light-up,
// and the time is what the crew and the page know it by.

import { MINUTE_MS } from '#core/units/time.ts';
import type { Burn } from './burn.ts';

export interface PitLit {
  readonly litAtMs: number;
  /** Which of those lit within the same minute; null where it was the only one. */
  readonly nth: number | null;
}

type Lit = Pick<Burn, 'id' | 'litAtMs' | 'openedAtMs'>;

/** One whose light-up was withdrawn was none. */
export const wasLit = ({ closedAtMs, state }: Pick<Burn, 'closedAtMs' | 'state'>): boolean =>
  closedAtMs === null || state === 'covered';

const litMsOf = ({ litAtMs, openedAtMs }: Lit): number => litAtMs ?? openedAtMs;
const minuteOf = (burn: Lit): number => Math.floor(litMsOf(burn) / MINUTE_MS);

/**
 * `burn` among those that it could be taken for, itself with them: those that were covered too, so that the second stays the
 * second when the first is covered.
 */
export function pitLit(burn: Lit, all: readonly Lit[]): PitLit {
  const alike = all
    .filter((one) => minuteOf(one) === minuteOf(burn))
    .sort((a, b) => a.openedAtMs - b.openedAtMs || (a.id < b.id ? -1 : 1));
  const at = alike.findIndex(({ id }) => id === burn.id);
  return { litAtMs: litMsOf(burn), nth: alike.length > 1 && at >= 0 ? at + 1 : null };
}
