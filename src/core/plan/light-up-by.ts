// Until when a go may be lit: a fire lit now takes its first charge only after kindling, and that must not come too late.

import type { BurnTimes } from '#core/site/site.ts';
import { MINUTE_MS, type Span } from '#core/units/time.ts';
import type { Standing } from './plan.ts';

/** From this moment on it is too late to light in a go; charging goes on until its end. */
export const lightUpByMs = (go: Span, { kindlingMin }: BurnTimes): number =>
  Math.max(go.fromMs, go.toMs - kindlingMin * MINUTE_MS);

/** Where a go window stands at a moment. */
export function standingIn(go: Span, burn: BurnTimes, nowMs: number): Exclude<Standing, 'none' | 'pause'> {
  if (nowMs < go.fromMs) return 'ahead';
  if (nowMs >= go.toMs) return 'over';
  return nowMs < lightUpByMs(go, burn) ? 'light' : 'charge';
}
