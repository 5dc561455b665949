// Whether the plan says anything of a fire that burns, or is a hold only because there is nothing to go by.

import { alertsKnown } from './alerts-known.ts';
import { isForecastFresh } from './is-forecast-fresh.ts';
import type { WatchInput } from './watch-context.ts';

/** False where the forecast or the list of alerts cannot be gone by; both are told by themselves. */
export const planSays = (input: Pick<WatchInput, 'alerts' | 'nowMs' | 'plan' | 'site'>): boolean =>
  isForecastFresh(input) && alertsKnown(input);
