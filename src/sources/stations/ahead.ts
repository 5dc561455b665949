// Readings from the future: a clock that is wrong, of the station or of whoever sent it.

import { MINUTE_MS } from '#core/units/time.ts';

const CLOCKS_DIFFER_MS = 5 * MINUTE_MS;

/** True for a reading that lies farther ahead than honest clocks differ. */
export const isAhead = (observedAtMs: number, receivedAtMs: number): boolean =>
  observedAtMs > receivedAtMs + CLOCKS_DIFFER_MS;
