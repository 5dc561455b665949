// Taps of an invented crew: `tapOf('lit', '08:00')` arrives half a minute later.

import type { BurnTap, Tap } from '#core/watch/burn.ts';
import { clock } from './watch.ts';

export function tapOf(tap: Tap, when: string, more: Partial<BurnTap> = {}): BurnTap {
  const tappedAtMs = clock(when);
  return {
    id: `${tap} ${when}`,
    burn: 'burn-1',
    tap,
    tappedAtMs,
    receivedAtMs: tappedAtMs + 30_000,
    by: 'Foreman',
    from: 'phone',
    corrects: null,
    withdraws: false,
    note: '',
    ...more,
  };
}

/** The whole day, as it should be. */
export const WHOLE_DAY: readonly BurnTap[] = [
  tapOf('lit', '08:00'),
  tapOf('charging', '08:20'),
  tapOf('burning-down', '14:30'),
  tapOf('covered', '16:00'),
];
