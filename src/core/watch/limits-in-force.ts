// The limits that count at the moment: some are for the day or the night alone.

import type { ElementLimit } from '#core/score/limit.ts';
import { daylightOver } from '#core/site/daylight.ts';
import { DAY_MS } from '#core/units/time.ts';
import type { WatchContext } from './watch-context.ts';

export function limitsInForce({ limits, site, nowMs }: WatchContext): ElementLimit[] {
  const light = daylightOver(site.place, { fromMs: nowMs - DAY_MS, toMs: nowMs + DAY_MS });
  const when = light.some((d) => d.fromMs <= nowMs && nowMs < d.toMs) ? 'day' : 'night';
  return limits.elements.filter((limit) => limit.when === 'always' || limit.when === when);
}
